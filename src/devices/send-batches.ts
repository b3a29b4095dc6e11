/** Many events in requests the server takes. */
import { MOST_BYTES_AT_ONCE, MOST_EVENTS_AT_ONCE } from '../core/record/wire.ts'
import type { RunEvent } from '../core/run/event.ts'
import type { Answered, Receipt } from '../ports/server.ts'

const ENVELOPE_BYTES = '{"events":[]}'.length

/** Bodies of requests, in order. An event too large for any request travels alone, and the server says so. */
export function inBatches(events: readonly RunEvent[]): readonly string[] {
  const batches: string[][] = []
  let batch: string[] = []
  let bytes = ENVELOPE_BYTES
  for (const event of events) {
    const text = JSON.stringify(event)
    const size = new TextEncoder().encode(text).length + 1
    if (batch.length > 0 && (batch.length === MOST_EVENTS_AT_ONCE || bytes + size > MOST_BYTES_AT_ONCE)) {
      batches.push(batch)
      batch = []
      bytes = ENVELOPE_BYTES
    }
    batch.push(text)
    bytes += size
  }
  if (batch.length > 0) batches.push(batch)
  return batches.map((texts) => `{"events":[${texts.join(',')}]}`)
}

/** One receipt for all. It stops at the first failure; what was stored before is simply sent again. */
export async function sendAll(
  bodies: readonly string[],
  send: (body: string) => Promise<Answered<Receipt>>
): Promise<Answered<Receipt>> {
  const stored: string[] = []
  const rejected: Receipt['rejected'][number][] = []
  for (const body of bodies) {
    const answered = await send(body)
    if (answered.kind === 'failed') return answered
    stored.push(...answered.value.stored)
    rejected.push(...answered.value.rejected)
  }
  return { kind: 'answered', value: { stored, rejected } }
}
