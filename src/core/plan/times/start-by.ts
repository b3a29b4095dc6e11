/** When to begin, to be ready as the shop opens. */
import { tzOffset } from '@date-fns/tz/tzOffset'
import { toDate } from 'date-fns/toDate'

export interface Opening {
  /** As the clock in the shop shows it, `HH:MM`. */
  readonly time: string
  /** IANA zone that the shop keeps its hours in. */
  readonly zone: string
}

/** Epoch ms. */
export type StartBy =
  | { readonly kind: 'begin'; readonly at: number; readonly opensAt: number }
  /** Too late to be ready for this opening, by so many ms. */
  | { readonly kind: 'late'; readonly byMs: number; readonly opensAt: number }
  | { readonly kind: 'bad-time' }
  | { readonly kind: 'unknown-zone' }

const MINUTE_MS = 60_000
const DAY_MS = 24 * 60 * MINUTE_MS

/** For the next opening after `now`, when the cleaning takes `needsMs`. */
export function startBy({ time, zone }: Opening, needsMs: number, now: number): StartBy {
  const [, hours, minutes] = /^([01]\d|2[0-3]):([0-5]\d)$/.exec(time) ?? []
  if (hours === undefined || minutes === undefined) return { kind: 'bad-time' }
  const shown = now + offsetAt(now, zone)
  if (Number.isNaN(shown)) return { kind: 'unknown-zone' }
  const midnight = Math.floor(shown / DAY_MS) * DAY_MS
  // Where a zone skipped a whole day, as Samoa did in 2011, tomorrow's opening may be over too.
  const openings = [0, 1, 2].map((days) =>
    instantOf(midnight + days * DAY_MS + (Number(hours) * 60 + Number(minutes)) * MINUTE_MS, zone)
  )
  const opensAt = Math.min(...openings.filter((opening) => opening > now))
  const at = opensAt - needsMs
  return at < now ? { kind: 'late', byMs: now - at, opensAt } : { kind: 'begin', at, opensAt }
}

/**
 * The instant at which a clock in `zone` shows what a clock in UTC shows at `shown`. Where a clock put back shows it
 * twice, the first; where a clock put forward leaves it out, what it would be by the offset after the change. Temporal
 * calls this choice `earlier` (TC39 proposal, disambiguation; from memory): whoever is ready early is not late.
 */
function instantOf(shown: number, zone: string): number {
  const candidates = [-DAY_MS, DAY_MS].map((away) => shown - offsetAt(shown + away, zone))
  const real = candidates.filter((at) => at + offsetAt(at, zone) === shown)
  return Math.min(...(real.length > 0 ? real : candidates))
}

function offsetAt(at: number, zone: string): number {
  return tzOffset(zone, toDate(at)) * MINUTE_MS
}
