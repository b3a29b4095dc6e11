/** Where crews go that nobody tells where to go. Each looks only at what anyone at the machine can see. */
import type { Course } from '../../src/core/procedure/course.ts'
import type { LaneId } from '../../src/core/procedure/procedure.ts'
import type { Going, Habit } from '../../src/core/plan/crew.ts'
import { phaseOf } from '../../src/core/run/phase.ts'
import type { Run } from '../../src/core/run/run.ts'

interface Seen {
  readonly lane: LaneId
  /** When something can be done there. */
  readonly from: number
}

/** Lanes where something can be done now or, after a wait, later; in the procedure's order. */
function seen(course: Course, run: Run, at: number): readonly Seen[] {
  return course.lanes.flatMap(({ id }): readonly Seen[] => {
    const phase = phaseOf(course, run, id, at)
    if (phase.kind === 'waiting') return [{ lane: id, from: phase.waiting.due }]
    return phase.kind === 'ready' || phase.kind === 'late' || phase.kind === 'stopped' ? [{ lane: id, from: at }] : []
  })
}

function goingTo(choice: Seen | undefined, at: number): Going {
  if (choice === undefined) throw new Error('no lane can be served')
  return choice.from > at ? { kind: 'wait', lane: choice.lane, until: choice.from } : { kind: 'go', lane: choice.lane }
}

function soonest(lanes: readonly Seen[]): Seen | undefined {
  return [...lanes].sort((a, b) => a.from - b.from)[0]
}

/** A lane is waited at until it is done. */
export const oneSideThenOther: Habit = (course, run, at) => goingTo(seen(course, run, at)[0], at)

/** Another lane after every step, where there is one with something to do: the first in the procedure's order. */
export const alternate: Habit = (course, run, at, hands) => {
  const lanes = seen(course, run, at)
  const free = lanes.filter(({ from }) => from <= at)
  return goingTo(free.find(({ lane }) => lane !== hands) ?? free[0] ?? soonest(lanes), at)
}

/** A lane is left only when it waits. */
export const stayUntilWait: Habit = (course, run, at, hands) => {
  const lanes = seen(course, run, at)
  const stays = lanes.find(({ lane, from }) => lane === hands && from <= at)
  return goingTo(stays ?? soonest(lanes), at)
}
