/** Stretches of a run that do not count, in trusted epoch ms. */
import type { RunEvent } from '../../run/event.ts'

export interface Span {
  readonly from: number
  readonly to: number
}

export function overlap(spans: readonly Span[], from: number, to: number): number {
  return spans.reduce((sum, span) => sum + Math.max(0, Math.min(to, span.to) - Math.max(from, span.from)), 0)
}

/** A device catches up with the server after every step, mostly by the time an answer takes. */
const CLOSE_ENOUGH_MS = 1000

/** When a device's time lagged behind, or somebody moved its clock: what it timed then may be anything. */
export function doubtfulTimes(events: readonly RunEvent[]): readonly (Span & { readonly device: string })[] {
  return events.flatMap((event) => {
    const { device, at } = event
    if (event.type === 'clock-moved') return [{ device, from: at, to: at }]
    const isFar = event.type === 'clock-caught-up' && Math.abs(event.byMs) > CLOSE_ENOUGH_MS
    return isFar ? [{ device, from: event.since, to: at }] : []
  })
}
