/** How long waits really were, by the one clock that no device has. */
import type { Visited, Walk } from '../../src/core/record/walk.ts'
import { timeBy } from '../../src/core/record/time-by.ts'
import type { Waiting } from '../../src/core/run/run.ts'

interface Begun {
  readonly waiting: Waiting
  readonly id: string
}

export interface ReallyWaited extends Pick<Waiting, 'lane' | 'step' | 'round'> {
  /** By how much it was really too short, ms; not above 0 when it was not. */
  readonly shortMs: number
}

/**
 * Every wait that counts as over. `bornAt` is when an event was really made. A device knows the time only as well as the
 * server's last answer told it: what an answer was under way for, it may be off.
 */
export function reallyWaited({ visits, lags }: Walk, bornAt: ReadonlyMap<string, number>): readonly ReallyWaited[] {
  const open = new Map<string, Begun>()
  const all: ReallyWaited[] = []
  for (const { event, after } of visits) {
    for (const [lane, { waiting }] of Object.entries(after.lanes)) {
      const known = open.get(lane)
      const isSame = known && waiting && known.waiting.step === waiting.step && known.waiting.round === waiting.round
      const isOver = known && (!isSame || waiting.acknowledgedAt !== null)
      if (isOver && timeBy(known.waiting, event, lags) >= known.waiting.due) {
        const { step, round, due, since } = known.waiting
        const endedAt = bornAt.get(event.id) ?? 0
        all.push({ lane, step, round, shortMs: due - since - (endedAt - beganAt(visits, bornAt, known, endedAt)) })
      }
      if (isOver) open.delete(lane)
      if (waiting && waiting.acknowledgedAt === null) open.set(lane, { waiting, id: isSame ? known.id : event.id })
    }
  }
  return all
}

/**
 * Where two people mark the same step, it was done when the first of them said so, though the other's stamp may be
 * earlier: its device lagged, and told it later. A mark that was taken back only after the wait had ended counted then.
 */
function beganAt(
  visits: readonly Visited[],
  bornAt: ReadonlyMap<string, number>,
  { waiting, id }: Begun,
  endedAt: number
): number {
  const born = (event: string) => bornAt.get(event) ?? Infinity
  const takenBackAt = (mark: string) =>
    Math.min(
      ...visits.flatMap(({ event }) => (event.type === 'taken-back' && event.cancels === mark ? [born(event.id)] : []))
    )
  const marks = visits.flatMap(({ event, counts }) =>
    (counts === 'set-aside' || (counts === 'taken-back' && takenBackAt(event.id) > endedAt)) &&
    (event.type === 'step-done' || event.type === 'check-answered') &&
    event.lane === waiting.lane &&
    event.step === waiting.step &&
    event.round === waiting.round
      ? [born(event.id)]
      : []
  )
  return Math.min(born(id), ...marks)
}
