/** The page's life: choose a procedure, gather, run. Everything the screens show and do goes through here. */
import { atom, type ReadableAtom, type WritableAtom } from 'nanostores'
import type { Course } from '../core/procedure/course.ts'
import type { RunEvent } from '../core/run/event.ts'
import { listedWith, operatorOf, UNHEARD_OF } from '../core/run/listed-run.ts'
import type { CatchUp } from '../core/time/trusted-time.ts'
import { textIn, type Manner } from '../core/talk/call-words.ts'
import { vocabularyEn } from '../core/talk/vocabulary.en.ts'
import { wordsEn } from '../core/talk/words.en.ts'
import type { AlarmState } from '../ports/alarm.ts'
import type { EarsState } from '../ports/ears.ts'
import type { LogFailure } from '../ports/event-log.ts'
import { VOICE_LOCK, type Locks } from '../ports/locks.ts'
import type { MouthState } from '../ports/mouth.ts'
import type { RulesOffered } from '../core/sanitizer/shop-rules.ts'
import type { ScreenLockState } from '../ports/screen-lock.ts'
import { keepCatchUp } from './catch-up.ts'
import { conduct, type Conductor } from './conductor.ts'
import { keepPlan, type LivePlan } from './live-plan.ts'
import { openOutbox, type LinkState } from './outbox.ts'
import type { Ports } from './ports.ts'
import { openProcedureShelf, type ProceduresOffered } from './procedure-shelf.ts'
import { openSession, type RunSession } from './run-session.ts'
import { syncRun, type RunSync } from './run-sync.ts'
import { openSettings, type Settings } from './settings.ts'
import { createSpeaker, type Speaker } from './speaker.ts'
import { keepTime, type ClockNotice } from './time-keeper.ts'
import { planWhole, type WholePlan } from './whole-plan.ts'

/** A run that is not over, found on this device or on the server. */
export interface OpenRun {
  readonly runId: string
  readonly procedureHash: string
  readonly procedureId: string
  readonly startedAt: number
  readonly lastAt: number
  readonly operator: string
}

export interface Offers extends ProceduresOffered {
  readonly openRuns: readonly OpenRun[]
}

export type View =
  | { readonly kind: 'choose'; readonly offers: Offers | null }
  | { readonly kind: 'gather'; readonly hash: string; readonly course: Course }
  /** Sums outside a run. `rules` is null when they could not be had. */
  | { readonly kind: 'sums'; readonly rules: RulesOffered | null }
  | {
      readonly kind: 'run'
      readonly session: RunSession
      readonly conductor: Conductor
      readonly plan: LivePlan
      /** Sound and screen lock wait for a tap: after a reload there has been none yet. */
      readonly needsTap: boolean
    }

/** Something that could not be done, for the person at the screen. */
export type Failure =
  | { readonly kind: 'storage'; readonly reason: LogFailure; readonly detail: string }
  | { readonly kind: 'procedure-unavailable' }
  | { readonly kind: 'run-unreadable'; readonly runId: string; readonly detail: string }

export interface App {
  readonly $view: ReadableAtom<View>
  readonly $failure: WritableAtom<Failure | null>
  readonly $settings: WritableAtom<Settings>
  readonly $ears: ReadableAtom<EarsState>
  readonly $mouth: ReadableAtom<MouthState>
  readonly $alarm: ReadableAtom<AlarmState>
  readonly $screenLock: ReadableAtom<ScreenLockState>
  readonly $link: ReadableAtom<LinkState>
  readonly $clock: ReadableAtom<ClockNotice | null>
  /** Another tab of this browser has the voice; this one shows and takes touches only. */
  readonly $voiceElsewhere: ReadableAtom<boolean>
  /** Whether another tab would be noticed at all. */
  readonly $lockReach: ReadableAtom<Locks['reach']>
  readonly speaker: Speaker
  readonly manner: () => Manner
  /** Lists procedures and open runs again. */
  list(): Promise<void>
  choose(hash: string): Promise<void>
  /** The plan of all of a procedure, for one pair of hands. */
  wholePlan(course: Course): Promise<WholePlan>
  showSums(): Promise<void>
  backToChoice(): Promise<void>
  /** Call from inside a tap: it unlocks sound. */
  begin(): Promise<void>
  resume(run: OpenRun): Promise<void>
  /** Call from inside a tap, after a reload. */
  unlock(): void
  /** The page came back, or the network did: look at the time, the run and what is unsent. */
  wake(): void
  /** Ends everything that goes on by itself. */
  close(): void
}

export async function startApp(ports: Ports): Promise<App> {
  const { log, server, clock, newId } = ports
  const $view = atom<View>({ kind: 'choose', offers: null })
  const $settings = await openSettings(log)
  const device = await deviceId(log, newId)
  const time = await keepTime(ports, keepCatchUpHere)
  const outbox = openOutbox(ports)
  const manner = (): Manner => ({ language: 'en', units: $settings.get().units, words: wordsEn })
  const speaker = createSpeaker(ports, () => manner().language)
  const $failure = atom<Failure | null>(null)
  const shelf = openProcedureShelf(ports, ({ reason, detail }) => $failure.set({ kind: 'storage', reason, detail }))
  const $voiceElsewhere = atom(false)
  const $lockReach = atom(ports.locks.reach)
  let hasVoice = false
  let beginning = false
  let releaseVoice = () => {}
  let sync: RunSync | null = null

  ports.ears.onHeard((heard) => {
    const view = $view.get()
    if (view.kind === 'run')
      void view.conductor.hearWords(
        heard.alternatives.map(({ words }) => words),
        'voice'
      )
  })
  log.onElsewhere((runId) => {
    const view = $view.get()
    if (view.kind === 'run' && view.session.$state.get().run.id === runId) void view.conductor.refresh()
  })

  async function keepCatchUpHere(caughtUp: CatchUp, at: number): Promise<boolean> {
    if (!(await keepCatchUp(ports, device, caughtUp, at))) return false
    const view = $view.get()
    if (view.kind === 'run') await view.conductor.refresh()
    return true
  }

  async function list(): Promise<void> {
    const [offered, runs, own] = await Promise.all([shelf.offered(), server.runs(), openRunsHere()])
    const theirs = runs.kind === 'answered' ? runs.value.filter((run) => run.open) : []
    const known = new Set(own.open.map((run) => run.runId))
    const offers: Offers = {
      ...offered,
      // A run that ended here may not have reached the server yet.
      openRuns: [...own.open, ...theirs.filter((run) => !known.has(run.runId) && !own.over.has(run.runId))]
    }
    if ($view.get().kind === 'choose') $view.set({ kind: 'choose', offers })
  }

  async function openRunsHere(): Promise<{ open: readonly OpenRun[]; over: ReadonlySet<string> }> {
    const ids = await log.runs()
    if (ids.kind === 'failed') {
      $failure.set({ kind: 'storage', reason: ids.reason, detail: ids.detail })
      return { open: [], over: new Set() }
    }
    const open: OpenRun[] = []
    const over = new Set<string>()
    for (const runId of ids.value.slice(0, 20)) {
      const read = await log.read(runId)
      if (read.kind === 'failed') {
        $failure.set({ kind: 'run-unreadable', runId, detail: read.detail })
        continue
      }
      const found = openRunOf(runId, read.value)
      if (found) open.push(found)
      else over.add(runId)
    }
    return { open, over }
  }

  function openRun(course: Course, runId: string, events: readonly RunEvent[], needsTap: boolean): void {
    const session = openSession(ports, { runId, course, events, device, now: time.now })
    const plan = keepPlan(ports.planner, session, time.now)
    const conductor = conduct(ports, {
      session,
      speaker,
      time,
      outbox,
      plan,
      manner,
      vocabulary: vocabularyEn,
      hasVoice: () => hasVoice
    })
    $view.set({ kind: 'run', session, conductor, plan, needsTap })
    takeVoice()
    conductor.open()
    sync = syncRun(ports, { runId, taken: () => conductor.refresh() })
    void outbox.flush()
  }

  function takeVoice(): void {
    $voiceElsewhere.set(!hasVoice)
    releaseVoice = ports.locks.hold(VOICE_LOCK, () => {
      hasVoice = true
      // Known for certain only once a lock was asked for: a page may be forbidden to.
      $lockReach.set(ports.locks.reach)
      $voiceElsewhere.set(false)
      const view = $view.get()
      if (view.kind === 'run' && !view.needsTap) ports.ears.start(manner().language)
    })
  }

  function unlock(): void {
    ports.alarm.unlock()
    ports.mouth.unlock()
    ports.screenLock.keep()
    if (hasVoice) ports.ears.start(manner().language)
    const view = $view.get()
    if (view.kind !== 'run' || !view.needsTap) return
    $view.set({ ...view, needsTap: false })
    view.conductor.sayNow()
  }

  function leaveRun(): void {
    const view = $view.get()
    if (view.kind !== 'run') return
    view.conductor.close()
    view.plan.stop()
    sync?.stop()
    sync = null
    ports.ears.stop()
    ports.screenLock.release()
    releaseVoice()
    hasVoice = false
  }

  async function begin(): Promise<void> {
    const view = $view.get()
    if (view.kind !== 'gather' || beginning) return
    // A second tap on Start, while the first is still being kept, must not begin a second run.
    beginning = true
    unlock()
    const { course, hash } = view
    const runId = newId()
    const settings = $settings.get()
    const at = time.now()
    const started: RunEvent = {
      id: newId(),
      runId,
      at,
      deviceAt: clock.wall(),
      device,
      seq: 1,
      by: settings.operator,
      via: 'touch',
      type: 'run-started',
      procedureId: course.procedure.id,
      procedureHash: hash,
      site: settings.site,
      machine: textIn(course.procedure.machine, manner()),
      zone: ports.zone
    }
    const kept = await log.append([started])
    beginning = false
    if (kept.kind === 'failed') {
      $failure.set({ kind: 'storage', reason: kept.reason, detail: kept.detail })
      return
    }
    openRun(course, runId, [started], false)
  }

  async function resume(run: OpenRun): Promise<void> {
    const course = await shelf.course(run.procedureHash)
    if (!course) return $failure.set({ kind: 'procedure-unavailable' })
    const answered = await server.events(run.runId, 0)
    if (answered.kind === 'answered') await log.receive(answered.value.events)
    const read = await log.read(run.runId)
    if (read.kind === 'failed') return $failure.set({ kind: 'run-unreadable', runId: run.runId, detail: read.detail })
    openRun(course, run.runId, read.value, true)
  }

  const app: App = {
    $view,
    $failure,
    $settings,
    $ears: stateOf(ports.ears),
    $mouth: stateOf(ports.mouth),
    $alarm: stateOf(ports.alarm),
    $screenLock: stateOf(ports.screenLock),
    $link: outbox.$link,
    $clock: time.$notice,
    $voiceElsewhere,
    $lockReach,
    speaker,
    manner,
    list,
    async choose(hash) {
      const course = await shelf.course(hash)
      if (course) $view.set({ kind: 'gather', hash, course })
      else $failure.set({ kind: 'procedure-unavailable' })
    },
    wholePlan: (course) => planWhole(ports.planner, course),
    async showSums() {
      const { rulesHere } = await import('./rules-shelf.ts')
      const rules = await rulesHere(ports)
      if ($view.get().kind === 'choose') $view.set({ kind: 'sums', rules })
    },
    async backToChoice() {
      leaveRun()
      $view.set({ kind: 'choose', offers: null })
      await list()
    },
    begin,
    resume,
    unlock,
    wake() {
      const view = $view.get()
      void sync?.pull()
      void time.askServer().then(() => (view.kind === 'run' ? view.conductor.refresh() : undefined))
      void time.mark()
      void outbox.flush()
    },
    close() {
      leaveRun()
      outbox.stop()
      ports.stream.close()
      ports.planner.close()
      log.close()
    }
  }
  const here = await openRunsHere()
  const going = here.open[0]
  if (going) await resume(going)
  if ($view.get().kind === 'choose') await list()
  void outbox.flush()
  return app
}

function stateOf<T>(port: { state(): T; onState(tell: (state: T) => void): () => void }): ReadableAtom<T> {
  const $state = atom<T>(port.state())
  port.onState((state) => $state.set(state))
  return $state
}

function openRunOf(runId: string, events: readonly RunEvent[]): OpenRun | null {
  const listed = events.reduce(listedWith, UNHEARD_OF)
  const { started, lastAt, open } = listed
  if (!started || !open) return null
  const { procedureHash, procedureId, at: startedAt } = started
  return { runId, procedureHash, procedureId, startedAt, lastAt, operator: operatorOf(listed) }
}

async function deviceId(log: Ports['log'], newId: () => string): Promise<string> {
  const kept = await log.setting('device')
  if (kept.kind === 'kept' && kept.value !== null) return kept.value
  const id = newId()
  await log.keepSetting('device', id)
  return id
}
