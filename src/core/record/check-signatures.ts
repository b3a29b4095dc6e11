/** Whether a signature in a record covers what it says: so many entries of its run, the last of them with that link. */
import type { RunEvent } from '../run/event.ts'

export type Signed = Pick<Extract<RunEvent, { type: 'signed' }>, 'entries' | 'head'>

export interface Tally {
  entries: number
  signatures: number
  /** Of each run, its links so far. */
  readonly links: Map<string, string[]>
}

export function newTally(): Tally {
  return { entries: 0, signatures: 0, links: new Map() }
}

/** Call before the signature itself is counted. */
export function checkSignature({ links }: Tally, run: string, { entries, head }: Signed): boolean {
  const place = links.get(run)?.indexOf(head) ?? -1
  return place >= 0 && place + 1 === entries
}

export function tallied(tally: Tally, run: string, link: string, isSignature: boolean): void {
  tally.entries += 1
  if (isSignature) tally.signatures += 1
  const links = tally.links.get(run)
  if (links) links.push(link)
  else tally.links.set(run, [link])
}
