/** What the screen of an open run needs besides the run itself: rows, score, panels, and keys while it is open. */
import { atom, computed, type ReadableAtom } from 'nanostores'
import type { Course } from '../core/procedure/course.ts'
import { readyTimes } from '../core/plan/outlook.ts'
import type { Call } from '../core/run/call.ts'
import { callKey } from '../core/talk/announce.ts'
import { correctionsFor, textIn } from '../core/talk/call-words.ts'
import { HOLD_MS, LONG_HOLD_MS, type Key, type Keys, type KeyTaker } from '../ports/keys.ts'
import type { App, View } from './app.ts'
import type { Conductor } from './conductor.ts'
import { isUsed, meaningOf, type KeyContext, type KeyMeaning } from './keys.ts'
import { laneRows, sameRow, type LaneRow } from './lane-rows.ts'
import { answerOf, otherUnit, typeKey, type NumberCheck } from './number-entry.ts'
import { openPanels, typedIn, type Panels } from './panels.ts'
import { asTaught } from './pedal.ts'
import type { Ports } from './ports.ts'
import type { RunSession } from './run-session.ts'
import { openScan, type Scan } from './scan.ts'
import { scoreOf, type Note } from './score.ts'

/** What the score shows of the past and the future, ms. */
export const SCORE_BACK_MS = 4 * 60_000
export const SCORE_AHEAD_MS = 10 * 60_000
/** How old the expected part of the score may get, ms. */
const SCORE_AGE_MS = 10_000
/** A call this young (ms) takes no touch: a second tap of a wet finger was meant for the one before. */
const SETTLE_MS = 500
const MINUTE_MS = 60_000

export interface RunScreen {
  readonly course: Course
  readonly session: RunSession
  readonly conductor: Conductor
  readonly panels: Panels
  readonly $rows: ReadableAtom<readonly LaneRow[]>
  /** The score around now. */
  readonly $notes: ReadableAtom<readonly Note[]>
  /** When all is complete four times in five, to the minute, trusted epoch ms; null while there is no plan. */
  readonly $finish: ReadableAtom<number | null>
  /** A key of ours that is down, for showing how far a hold has come. */
  readonly $holding: ReadableAtom<Key | null>
  /** What a single switch is offered. */
  readonly scan: Scan
  /** The call has been on the screen long enough for a touch to be meant for it. */
  isSettled(): boolean
}

export interface RunScreens {
  readonly $runScreen: ReadableAtom<RunScreen | null>
  /** Takes keys while a run is open. */
  readonly stop: () => void
}

export function openRunScreens(app: App, keys: Keys, clock: Ports['clock']): RunScreens {
  const $runScreen = atom<RunScreen | null>(null)
  let stopKeys = () => {}
  const stopView = app.$view.subscribe((view) => {
    const shown = $runScreen.get()
    if (view.kind === 'run' && shown?.conductor === view.conductor) return
    stopKeys()
    stopKeys = () => {}
    if (view.kind !== 'run') return $runScreen.set(null)
    const $holding = atom<Key | null>(null)
    const screen = openRunScreen(view, clock, $holding)
    stopKeys = keys.take(keyTaker(app, screen, (key) => $holding.set(key)))
    $runScreen.set(screen)
  })
  return {
    $runScreen,
    stop() {
      stopView()
      stopKeys()
    }
  }
}

function openRunScreen(
  view: Extract<View, { kind: 'run' }>,
  clock: Ports['clock'],
  $holding: ReadableAtom<Key | null>
): RunScreen {
  const { session, conductor, plan } = view
  const { course } = session.$state.get()
  const { $call, $now } = conductor
  const $scoreAge = computed($now, (now) => Math.floor(now / SCORE_AGE_MS))
  const panels = openPanels($call)
  // On a device that the run was not begun on, somebody has to say in which way they go on.
  if (!session.$state.get().run.crew.some(({ device }) => device === session.device)) panels.show({ kind: 'crew' })
  let rows: readonly LaneRow[] = []
  const scan = openScan()
  let known = callKey($call.get())
  let changedAt = clock.steady()
  $call.listen((call) => {
    const key = callKey(call)
    if (key !== known) {
      changedAt = clock.steady()
      // What was offered belonged to the call before.
      scan.stop()
    }
    known = key
  })
  return {
    course,
    session,
    conductor,
    panels,
    $rows: computed([session.$state, $call, $now], ({ run }, call, now) => {
      const fresh = laneRows(course, run, call, now).map((row) => rows.find((old) => sameRow(old, row)) ?? row)
      if (fresh.length !== rows.length || fresh.some((row, index) => row !== rows[index])) rows = fresh
      return rows
    }),
    $finish: computed([plan.$outlook, $scoreAge], (outlook) => {
      const ready = outlook && readyTimes(outlook)
      return ready && Math.ceil(Math.max(ready.p80, $now.get()) / MINUTE_MS) * MINUTE_MS
    }),
    $notes: computed([session.$state, plan.$outlook, $scoreAge], ({ run }, outlook) =>
      scoreOf(course, run, outlook, { at: $now.get(), back: SCORE_BACK_MS, ahead: SCORE_AHEAD_MS })
    ),
    $holding,
    scan,
    isSettled: () => clock.steady() - changedAt >= SETTLE_MS
  }
}

/** The reading or count that the call asks for, if it does. */
export function numberAsked(call: Call): NumberCheck | null {
  const check = call.kind === 'step' ? call.place.step.check : null
  return check && check.kind !== 'yes-no' ? check : null
}

function keyTaker(app: App, screen: RunScreen, holding: KeyTaker['holding']): KeyTaker {
  const { conductor, panels, session, course } = screen

  function context(): KeyContext {
    const manner = app.manner()
    const call = conductor.$call.get()
    const panel = panels.$panel.get()
    return {
      call,
      asking: conductor.$asking.get(),
      lanes: course.lanes
        .filter(({ steps }) => steps.length > 0)
        .map(({ id, name }) => ({ id, name: textIn(name, manner) })),
      corrections: correctionsFor(
        {
          course,
          run: session.$state.get().run,
          at: conductor.$now.get(),
          manner,
          device: session.device,
          outlook: null
        },
        call
      ),
      numbers: numberAsked(call) !== null,
      typed: typedIn(panel).typed !== '',
      panelOpen: panel.kind !== 'none',
      oneSwitch: app.$settings.get().oneSwitchMs === null ? 'no' : screen.scan.$on.get() ? 'scanning' : 'yes'
    }
  }

  function act(meaning: KeyMeaning): void {
    const check = numberAsked(conductor.$call.get())
    const entry = typedIn(panels.$panel.get())
    switch (meaning.kind) {
      case 'intent':
        return void conductor.intend(meaning.intent, 'key')
      case 'number-key':
        return check ? panels.show({ ...entry, typed: typeKey(entry.typed, meaning.key, check) }) : undefined
      case 'number-scale':
        return check ? panels.show({ ...entry, unit: otherUnit(check, entry.unit) }) : undefined
      case 'record-number': {
        const answer = check && answerOf(entry.typed, check, entry.unit)
        return answer ? void conductor.intend({ type: 'answer', answer }, 'key') : undefined
      }
      case 'show-keys':
        return panels.$panel.get().kind === 'keys' ? panels.close() : panels.show({ kind: 'keys' })
      case 'scan':
        if (panels.$panel.get().kind === 'none') {
          if (meaning.of === 'everything') panels.show({ kind: 'ways' })
          else if (check) panels.show(entry)
        }
        return screen.scan.start()
      case 'scan-take':
        return screen.scan.take()
      case 'close':
        screen.scan.stop()
        return panels.close()
      case 'nothing':
    }
  }

  const needsTap = () => {
    const view = app.$view.get()
    return view.kind === 'run' && view.needsTap
  }

  const settings = () => app.$settings.get()
  return {
    uses: (key) => needsTap() || isUsed(asTaught(settings().pedal, key), context()),
    longest: () => (settings().oneSwitchMs === null ? HOLD_MS : LONG_HOLD_MS),
    pressed(press) {
      if (needsTap()) return app.unlock()
      const meaning = meaningOf(asTaught(settings().pedal, press), context())
      if (meaning) act(meaning)
    },
    holding: (key) => holding(key && asTaught(settings().pedal, key))
  }
}
