/** The page's life: choose a procedure, gather, run. Everything the screens show and do goes through here. */
import { atom } from 'nanostores'
import type { Course } from '../core/procedure/course.ts'
import { machineName } from '../core/procedure/machine-name.ts'
import type { RunEvent } from '../core/run/event.ts'
import { handsOf } from '../core/run/run.ts'
import type { CatchUp } from '../core/time/trusted-time.ts'
import type { Manner } from '../core/talk/call-words.ts'
import { likelyLanguage } from '../core/talk/languages.ts'
import type { Kept } from '../ports/event-log.ts'
import { VOICE_LOCK } from '../ports/locks.ts'
import { keepCatchUp } from './catch-up.ts'
import { conduct } from './conductor.ts'
import { learnTimes } from './known-times.ts'
import { speakLanguage } from './language.ts'
import { listenFor } from './listen.ts'
import { keepPlan } from './live-plan.ts'
import { runsHere, type OpenRun, type RunsHere } from './open-runs.ts'
import { openOutbox } from './outbox.ts'
import { deskLater } from './desk-later.ts'
import { givenName } from './given-name.ts'
import { peopleLater } from './people-later.ts'
import { workshopLater } from './workshop-later.ts'
import { deviceId } from './device-id.ts'
import type { Ports } from './ports.ts'
import { openProcedureShelf } from './procedure-shelf.ts'
import { openSession } from './run-session.ts'
import { syncRun, type RunSync } from './run-sync.ts'
import { openSettings, TAIL_MS } from './settings.ts'
import { howManyLost, readStoredRun, takeFromServer, type AskedServer, type StoredRun } from './stored-run.ts'
import { createSpeaker } from './speaker.ts'
import { stateOf } from './state-of.ts'
import { keepTime } from './time-keeper.ts'
import type { App } from './what-app-does.ts'
import type { Failure, Offers, View } from './view.ts'

export type { App } from './what-app-does.ts'
export type { Failure, Offers, View } from './view.ts'

export async function startApp(ports: Ports): Promise<App> {
  const { log, server, clock, newId } = ports
  const $view = atom<View>({ kind: 'choose', offers: null })
  const $settings = await openSettings(log, likelyLanguage(ports.languages))
  // Beside the questions to store and server, so that it costs no time of its own.
  const speaking = speakLanguage($settings, whoIsHere)
  const device = await deviceId(ports)
  const time = await keepTime(ports, keepCatchUpHere)
  const { $talk, ...spoken } = await speaking
  const outbox = openOutbox(ports, time.askServer)
  const { fewWords } = listenFor(ports, { $view, $settings, $talk })
  const manner = (): Manner => {
    const { units, toldAll } = $settings.get()
    const telling = toldAll.includes(whoIsHere().trim()) ? 'full' : 'brief'
    return { ...$talk.get(), units, telling, fewWords: fewWords() }
  }
  const speakable = (text: string) => $talk.get().speakable(text, ports.clips.pronunciations())
  const speaker = createSpeaker(ports, {
    language: () => manner().language,
    tailMs: () => TAIL_MS[$settings.get().room],
    speakable
  })
  $talk.listen(({ language }) => {
    const view = $view.get()
    if (view.kind === 'gather') ports.clips.want(view.hash, language)
    if (view.kind !== 'run') return
    ports.clips.want(view.session.$state.get().run.from?.procedureHash ?? '', language)
    if (hasVoice && !view.needsTap) ports.ears.start(language)
    speaker.hush('caution')
    view.conductor.sayNow()
  })
  const $failure = atom<Failure | null>(null)
  const shelf = openProcedureShelf(ports, notKept)
  const records = deskLater({ ports, outbox, shelf, device, now: time.now })
  const people = peopleLater(ports, () => void outbox.flush())
  const wholePlan = async (course: Course) => {
    const { planWhole } = await import('./whole-plan.ts')
    return planWhole(ports.planner, course, await learnTimes(ports, course, whoOf(course, $settings.get().operator)))
  }
  const workshop = workshopLater({ ports, shelf, by: () => $settings.get().operator, wholePlan })
  const sideRooms = async () => {
    const { openSideRooms } = await import('./side-rooms.ts')
    return openSideRooms({ ports, $view, shelf, manner, records, people, workshop, $settings, $talk })
  }
  const $voiceElsewhere = atom(false)
  const $lockReach = atom(ports.locks.reach)
  let hasVoice = false
  let beginning = false
  let releaseVoice = () => {}
  let sync: RunSync | null = null

  log.onElsewhere((runId) => {
    const view = $view.get()
    if (view.kind === 'run' && view.session.$state.get().run.id === runId) void view.conductor.refresh()
  })

  ports.stream.onOffered(() => ($view.get().kind === 'choose' ? void list() : undefined))

  async function keepCatchUpHere(caughtUp: CatchUp, at: number): Promise<boolean> {
    if (!(await keepCatchUp(ports, device, caughtUp, at))) return false
    const view = $view.get()
    if (view.kind === 'run') await view.conductor.refresh()
    return true
  }

  function whoIsHere(): string {
    const view = $view.get()
    return view.kind === 'run' ? handsOf(view.session.$state.get().run, device).name : $settings.get().operator
  }

  async function list(): Promise<void> {
    const [offered, runs, own] = await Promise.all([shelf.offered(), server.runs(), openRunsHere()])
    const listed = runs.kind === 'answered' ? runs.value : []
    const known = new Set(own.open.map((run) => run.runId))
    // A run that ended here may not have reached the server yet; else the server knows better.
    const theirs = listed.filter(
      (run) => run.open && !known.has(run.runId) && run.lastAt >= (own.over.get(run.runId) ?? 0)
    )
    const offers: Offers = {
      ...offered,
      openRuns: [...own.open, ...theirs],
      unreadable: own.unreadable.filter((id) => !listed.some(({ runId }) => runId === id)).length
    }
    if ($view.get().kind === 'choose') $view.set({ kind: 'choose', offers })
  }

  async function openRunsHere(): Promise<RunsHere> {
    const here = await runsHere(ports, device)
    if (here.kind === 'kept') return here.value
    notKept(here)
    return { open: [], over: new Map(), unreadable: [] }
  }

  function notKept({ reason, detail }: Extract<Kept<unknown>, { kind: 'failed' }>): void {
    $failure.set({ kind: 'storage', reason, detail })
  }

  function openRun(course: Course, runId: string, events: readonly RunEvent[], needsTap: boolean): void {
    const session = openSession(ports, { runId, course, events, device, now: time.now })
    const learning = learnTimes(ports, course, whoOf(course, handsOf(session.$state.get().run, device).name))
    const plan = keepPlan(ports.planner, session, learning, time.now)
    const conductor = conduct(ports, {
      session,
      speaker,
      time,
      outbox,
      plan,
      manner,
      talk: () => $talk.get(),
      hasVoice: () => hasVoice
    })
    $view.set({ kind: 'run', session, conductor, plan, needsTap })
    session.$state.subscribe(() => void spoken.look())
    takeVoice()
    conductor.open()
    sync = syncRun(ports, { runId, taken: () => conductor.refresh() })
    void outbox.flush()
  }

  function whoOf(course: Course, operator: string) {
    return { machine: machineName(course.procedure), operator }
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
    useOwnVoice()
    const view = $view.get()
    if (view.kind !== 'run' || !view.needsTap) return
    $view.set({ ...view, needsTap: false })
    view.conductor.sayNow()
  }

  /** Ears that learned from somebody listen for that voice. */
  function useOwnVoice(): void {
    const who = { operator: $settings.get().operator, language: manner().language }
    void ports.practice().then((practice) => practice.use(who))
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
    spoken.keep()
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
      machine: machineName(course.procedure),
      zone: ports.zone,
      ...givenName(settings, settings.operator, at)
    }
    const kept = await log.append([started])
    beginning = false
    if (kept.kind === 'failed') return notKept(kept)
    openRun(course, runId, [started], false)
  }

  async function resume(run: OpenRun): Promise<void> {
    const { runId } = run
    const course = await shelf.course(run.procedureHash)
    if (!course) return $failure.set({ kind: 'procedure-unavailable' })
    ports.clips.want(run.procedureHash, manner().language)
    const taken = await takeFromServer(ports, runId)
    if (taken.kind === 'failed') notKept(taken)
    show(run, course, await readStoredRun(ports, { runId, device }), taken)
  }

  async function goOnWithout(): Promise<void> {
    const view = $view.get()
    if (view.kind !== 'damaged' || beginning) return
    beginning = true
    const { run, course } = view
    const { goOnWithoutLost } = await import('./go-on-without-lost.ts')
    const stored = await goOnWithoutLost(ports, { course, runId: run.runId, device, now: time.now })
    beginning = false
    show(run, course, stored, { kind: 'kept', value: view.server })
  }

  /** Opens the run when it is whole; otherwise asks the person at the screen. */
  function show(run: OpenRun, course: Course, stored: StoredRun, taken: Kept<AskedServer>): void {
    const { runId } = run
    if (stored.kind === 'failed') return notKept(stored)
    if (stored.kind === 'whole') return openRun(course, runId, stored.events, true)
    if (!stored.events.some(({ type }) => type === 'run-started')) return $failure.set({ kind: 'run-unreadable' })
    const server = taken.kind === 'kept' ? taken.value : 'server-away'
    $view.set({ kind: 'damaged', run, course, lost: howManyLost(stored), server })
  }

  const app: App = {
    $view,
    $failure,
    $settings,
    $ears: stateOf(ports.ears),
    $mouth: stateOf(ports.mouth),
    $clips: stateOf(ports.clips),
    $alarm: stateOf(ports.alarm),
    $screenLock: stateOf(ports.screenLock),
    $link: outbox.$link,
    $clock: time.$notice,
    $voiceElsewhere,
    $lockReach,
    whoseEars: ports.ears.which,
    speaker,
    manner,
    $talk,
    speakable,
    now: time.now,
    list,
    async choose(hash) {
      const course = await shelf.course(hash)
      if (!course) return $failure.set({ kind: 'procedure-unavailable' })
      ports.clips.want(hash, manner().language)
      $view.set({ kind: 'gather', hash, course })
    },
    wornParts: async (course) => {
      const [{ wornParts }, { agesOfParts }] = await Promise.all([
        import('../core/record/wear.ts'),
        import('./known-wear.ts')
      ])
      return wornParts(course.procedure, await agesOfParts(ports, whoOf(course, '').machine), time.now())
    },
    wholePlan,
    records,
    people,
    showSums: async () => (await sideRooms()).showSums(),
    showPractice: async () => (await sideRooms()).showPractice(),
    showRecords: async () => (await sideRooms()).showRecords(),
    showPeople: async () => (await sideRooms()).showPeople(),
    readWith: async (token) => (await sideRooms()).readWith(token),
    showWorkshop: async () => (await sideRooms()).showWorkshop(),
    async backToChoice() {
      leaveRun()
      const left = $view.get()
      if (left.kind === 'workshop') left.workshop.leave()
      ports.clips.rest()
      $view.set({ kind: 'choose', offers: null })
      void spoken.look()
      await list()
    },
    begin,
    resume,
    goOnWithout,
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
