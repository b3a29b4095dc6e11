/** Whether somebody has looked a record through, and whether anything has come since. */
import type { Meaning } from '../run/event.ts'

export interface SignedFor {
  readonly meaning: Meaning
  /** How many entries the record had then. */
  readonly entries: number
}

export type Review = 'unsigned' | 'signed' | 'changed-since'

/** `signed` in the agreed order; `entries` is how many there are now, signatures included. */
export function reviewOf(signed: readonly SignedFor[], entries: number): Review {
  const reviewed = signed.map((one, index) => ({ ...one, index })).filter(({ meaning }) => isReview(meaning))
  if (reviewed.length === 0) return 'unsigned'
  return reviewed.some(({ entries: seen, index }) => coversAll(seen, index, entries - signed.length))
    ? 'signed'
    : 'changed-since'
}

/**
 * Nothing but further signatures has come after the signature of this index. What a late device sends is ordered by its
 * own time, so it is the count that tells.
 */
export function coversAll(seen: number, index: number, others: number): boolean {
  return seen === others + index
}

function isReview(meaning: Meaning): boolean {
  return meaning === 'review' || meaning === 'approval'
}
