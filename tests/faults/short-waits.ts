/** How long waits really were, by the one clock that no device has. */
import type { Visited } from '../../src/core/record/walk.ts'
import type { Waiting } from '../../src/core/run/run.ts'

interface Begun {
  readonly waiting: Waiting
  readonly id: string
}

/**
 * By how much the worst wait that counts as kept was really too short, in ms; not above 0 when none was. `bornAt` is when
 * an event was really made. A device knows the time only as well as the server's last answer told it: what an answer was
 * under way for, it may be off.
 */
export function worstShortfall(visits: readonly Visited[], bornAt: ReadonlyMap<string, number>): number {
  const open = new Map<string, Begun>()
  let worst = -Infinity
  for (const { event, after } of visits) {
    for (const [lane, { waiting }] of Object.entries(after.lanes)) {
      const known = open.get(lane)
      const isSame = known && waiting && known.waiting.step === waiting.step && known.waiting.round === waiting.round
      const isOver = known && (!isSame || waiting.acknowledgedAt !== null)
      if (isOver && event.at >= known.waiting.due) {
        const really = (bornAt.get(event.id) ?? 0) - beganAt(visits, bornAt, known, event.id)
        worst = Math.max(worst, known.waiting.due - known.waiting.since - really)
      }
      if (isOver) open.delete(lane)
      if (waiting && waiting.acknowledgedAt === null) open.set(lane, { waiting, id: isSame ? known.id : event.id })
    }
  }
  return worst
}

/**
 * Where two people mark the same step, the earlier stamp counts, though its device may lag and tell it later. Whoever had
 * ended the wait before that was told had waited since the other mark, which is set aside now.
 */
function beganAt(
  visits: readonly Visited[],
  bornAt: ReadonlyMap<string, number>,
  { waiting, id }: Begun,
  endedBy: string
): number {
  const [begun, ended] = [bornAt.get(id) ?? 0, bornAt.get(endedBy) ?? 0]
  if (begun <= ended) return begun
  const marks = visits.flatMap(({ event, counts }) =>
    counts === 'set-aside' &&
    (event.type === 'step-done' || event.type === 'check-answered') &&
    event.lane === waiting.lane &&
    event.step === waiting.step &&
    event.round === waiting.round
      ? [bornAt.get(event.id) ?? Infinity]
      : []
  )
  return Math.min(begun, ...marks)
}
