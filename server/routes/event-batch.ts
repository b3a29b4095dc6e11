/** From the bytes of a request to events that can be stored, each judged by itself. */
import { MOST_EVENTS_AT_ONCE, readEvent } from '../../src/core/record/wire.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { canonicalEvent } from '../procedures/content-hash.ts'
import type { IncomingEvent } from '../storage/records.ts'

/** An explanation may quote what was sent, which may be long. */
const LONGEST_WHY = 300

/** What only the server makes, and is forged when somebody sends it. */
const SERVERS_OWN: ReadonlySet<RunEvent['type']> = new Set(['signed', 'name-checked'])
const NOT_SENT = 'such entries are made on the server, and never sent'

export type EventBatch =
  | {
      readonly kind: 'batch'
      readonly good: readonly IncomingEvent[]
      readonly rejected: readonly { readonly id: string; readonly why: string }[]
    }
  | { readonly kind: 'unusable'; readonly status: 400 | 422; readonly title: string; readonly detail: string }

export function readBatch(bytes: ArrayBuffer): EventBatch {
  const body = parseJson(bytes)
  if (body.kind === 'broken') return unusable(400, 'Not JSON', 'The body is no JSON in UTF-8.')
  const sent = eventsIn(body.value)
  if (sent === null) return unusable(422, 'No events', 'Send an object with a list called events.')
  if (sent.length > MOST_EVENTS_AT_ONCE)
    return unusable(422, 'Too many events', `Send at most ${MOST_EVENTS_AT_ONCE} at a time.`)
  const good: IncomingEvent[] = []
  const rejected: { id: string; why: string }[] = []
  for (const value of sent) {
    const read = readEvent(value)
    if (read.kind === 'event' && SERVERS_OWN.has(read.event.type)) rejected.push({ id: read.event.id, why: NOT_SENT })
    else if (read.kind === 'event') good.push({ event: read.event, canonical: canonicalEvent(read.event) })
    else rejected.push({ id: idOf(value), why: read.why.slice(0, LONGEST_WHY) })
  }
  return { kind: 'batch', good, rejected }
}

function unusable(status: 400 | 422, title: string, detail: string): EventBatch {
  return { kind: 'unusable', status, title, detail }
}

/** Bytes that are no UTF-8 are refused: replacing them would store words nobody said. */
function parseJson(
  bytes: ArrayBuffer
): { readonly kind: 'json'; readonly value: unknown } | { readonly kind: 'broken' } {
  try {
    return { kind: 'json', value: JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes)) as unknown }
  } catch {
    return { kind: 'broken' }
  }
}

function eventsIn(body: unknown): readonly unknown[] | null {
  const sent = typeof body === 'object' && body !== null && 'events' in body ? body.events : null
  return Array.isArray(sent) ? (sent as unknown[]) : null
}

/** Whole, so that the sender finds its event by it; empty when there is none. */
function idOf(value: unknown): string {
  return typeof value === 'object' && value !== null && 'id' in value && typeof value.id === 'string' ? value.id : ''
}
