/** Lanes that have missed their maximum while the hands are at another: said at once, though no step is broken off for it. */
import type { LaneId } from '../procedure/procedure.ts'
import { takenBy } from '../plan/where-next.ts'
import type { Call } from '../run/call.ts'
import { phaseOf } from '../run/phase.ts'
import { laneName, type Told } from './call-words.ts'
import type { Line } from './line.ts'

export interface LateElsewhere {
  /** The same for as long as it is the same wait that was missed. */
  readonly key: string
  readonly line: Line
}

export function lateElsewhere({ course, run, at, device, manner }: Told, call: Call): readonly LateElsewhere[] {
  if (run.status !== 'running') return []
  return course.lanes.flatMap(({ id }): readonly LateElsewhere[] => {
    const phase = phaseOf(course, run, id, at)
    if (phase.kind !== 'late' || isCalled(call, id) || takenBy(run, device, id) !== null) return []
    const { step, round, due, kind } = phase.waiting
    const text = manner.words.late(laneName(course, id, manner), manner.words.wait(kind))
    return [{ key: JSON.stringify([id, step, round, due]), line: { priority: 'answer', text, lane: id } }]
  })
}

function isCalled(call: Call, lane: LaneId): boolean {
  return 'lane' in call && call.lane === lane
}
