/** Keeps a plan of the open run up to date: worked out anew after everything that happens, and as time goes by. */
import { atom, type ReadableAtom } from 'nanostores'
import type { LaneId } from '../core/procedure/procedure.ts'
import type { Outlook } from '../core/plan/outlook.ts'
import { AS_STATED, CHANGE_MS, problemOf } from '../core/plan/problem-of-run.ts'
import type { Order } from '../core/plan/send-to.ts'
import { learnedAssumptions } from '../core/plan/times/learned-assumptions.ts'
import type { LearnedTimes, Pace } from '../core/plan/times/learned-times.ts'
import { phaseOf } from '../core/run/phase.ts'
import { handsOf, type Run } from '../core/run/run.ts'
import type { Planner } from '../ports/planner.ts'
import type { KnownTimes } from './known-times.ts'
import type { RunSession } from './run-session.ts'

/** A step that takes longer than planned moves everything after it: planned again this often, ms. */
const OLD_MS = 15_000
const PACE_EVERY = 5

export interface LivePlan {
  /** Of the newest run state that a plan is there for; null until the first. */
  readonly $outlook: ReadableAtom<Outlook | null>
  /** The order for this device's hands by the newest plan. */
  order(): Order
  /** The plan for the run as it is now is there, or will not come. */
  settled(): Promise<void>
  /** Time has passed. */
  look(): void
  stop(): void
}

/** `learning`: how long steps take; until it is there, and without it, the author's times count. */
export function keepPlan(
  planner: Planner,
  session: RunSession,
  learning: Promise<KnownTimes | null>,
  now: () => number
): LivePlan {
  const { device } = session
  let learned: LearnedTimes | null = null
  let pace: Pace | null = null
  let pacedAt = 0
  const $outlook = atom<Outlook | null>(null)
  let planned: Run | null = null
  let settling: Promise<void> = Promise.resolve()
  let askedAt = Number.NEGATIVE_INFINITY
  let isStopped = false

  async function ask(run: Run): Promise<void> {
    const { course } = session.$state.get()
    const at = now()
    planned = run
    askedAt = at
    if (run.status !== 'running' && run.status !== 'paused') return
    const times = learned && { ...learned, pace: pace ?? learned.pace }
    const assumed = times ? learnedAssumptions(times, times.pace, CHANGE_MS) : AS_STATED
    const forecast = await planner.forecast(problemOf(course, run, at, assumed), inHand(run, at), times)
    if (forecast && !isStopped) $outlook.set({ at, forecast })
  }

  /** The lane whose step the hands have begun, or are on their way to. */
  function inHand(run: Run, at: number): LaneId | null {
    const { focus } = handsOf(run, device)
    if (run.crew.length !== 1 || focus === null) return null
    return phaseOf(session.$state.get().course, run, focus, at).kind === 'ready' ? focus : null
  }

  void learning.then((known) => {
    learned = known?.learned ?? null
    if (learned && !isStopped) settling = ask(session.$state.get().run)
  })

  /** How today goes shows in the steps done; a few more of them change little. */
  async function takePace(known: LearnedTimes): Promise<void> {
    const { course, run, events } = session.$state.get()
    pacedAt = run.progress.length
    pace = (await planner.pace(known, course, events)) ?? pace
  }

  const stopListening = session.$state.subscribe(({ run }) => {
    if (run !== planned) settling = ask(run)
  })

  return {
    $outlook,
    order() {
      const outlook = $outlook.get()
      const { crew } = session.$state.get().run
      const index = Math.max(
        0,
        crew.findIndex((hands) => hands.device === device)
      )
      if (outlook?.forecast.planned.kind !== 'plan') return []
      return outlook.forecast.planned.plan.order
        .filter(({ hands }) => hands === index)
        .map(({ lane, step, round, start }) => ({ lane, step, round, start: outlook.at + start }))
    },
    settled: () => settling,
    look() {
      if (learned && session.$state.get().run.progress.length >= pacedAt + PACE_EVERY) void takePace(learned)
      const outlook = $outlook.get()
      const planned = outlook?.forecast.planned
      const goesAsPlanned = outlook && planned?.kind === 'plan' ? outlook.at + (planned.plan.order[0]?.end ?? 0) : 0
      if (now() >= Math.max(goesAsPlanned, askedAt + OLD_MS)) settling = ask(session.$state.get().run)
    },
    stop() {
      isStopped = true
      stopListening()
    }
  }
}
