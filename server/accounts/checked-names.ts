/** Adds to a run, once its entries have come, that the PIN behind a name was right. Nothing of it can be sent. */
import type { GivenName, RunEvent } from '../../src/core/run/event.ts'
import { canonicalEvent } from '../procedures/content-hash.ts'
import { envelopeAfter } from '../routes/server-entry.ts'
import type { IncomingEvent, Records } from '../storage/records.ts'
import type { Accounts } from './accounts.ts'

/** A PIN stands for a shift, and not for whoever stands at the device a day later. */
const STANDS_MS = 12 * 3600_000
/** A device's trusted time may be ahead of ours by so much. */
const AHEAD_MS = 5 * 60_000

export interface CheckedNames {
  readonly accounts: Accounts
  readonly records: Records
  readonly newId: () => string
}

/**
 * `stored`: events that are kept now; `sender`: ids of the device and the person that sent them. Gives the entries to
 * be added: none for a name that was not checked, and none for one that has its entry already. A check that does not
 * fit, or was given to somebody else, is passed over: the record then says "not checked".
 */
export async function checkedNames(
  { accounts, records, newId }: CheckedNames,
  stored: readonly RunEvent[],
  sender: readonly string[],
  now: number
): Promise<readonly IncomingEvent[]> {
  const entries: IncomingEvent[] = []
  for (const event of stored) {
    const given = givenIn(event)
    const check = given?.who.check ? await accounts.check(given.who.check) : null
    if (!given || check?.person !== given.who.person || check.name !== given.name) continue
    // The record tells the check's id to everybody who reads it.
    if (check.givenTo === null || !sender.includes(check.givenTo)) continue
    if (event.at < check.at - AHEAD_MS || event.at > check.at + STANDS_MS) continue
    const { events } = await records.eventsAfter(event.runId, 0)
    const all = [...events, ...entries.flatMap((one) => (one.event.runId === event.runId ? [one.event] : []))]
    if (all.some((one) => one.type === 'name-checked' && one.entry === event.id)) continue
    const added: RunEvent = {
      ...envelopeAfter(all, now, newId()),
      by: check.name,
      via: 'app',
      runId: event.runId,
      type: 'name-checked',
      entry: event.id,
      person: check.person
    }
    entries.push({ event: added, canonical: canonicalEvent(added) })
  }
  return entries
}

/** The name as the entry gives it. */
function givenIn(event: RunEvent): { readonly name: string; readonly who: GivenName } | null {
  switch (event.type) {
    case 'run-started':
      return event.who ? { name: event.by, who: event.who } : null
    case 'joined':
      return event.who ? { name: event.name, who: event.who } : null
    case 'handed-over':
      return event.who ? { name: event.to, who: event.who } : null
    default:
      return null
  }
}
