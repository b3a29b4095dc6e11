/** What of this device's entries has not reached the server, and what the server will never take. */
import type { Ports } from './ports.ts'

export type Standing =
  | { readonly kind: 'looking' }
  | {
      readonly kind: 'known'
      readonly unsent: Unsent | null
      /** They stay on this device, and in this list. */
      readonly refused: readonly { readonly id: string; readonly why: string }[]
    }

export interface Unsent {
  /** At most `MOST_COUNTED`. */
  readonly count: number
  /** Trusted epoch ms of the oldest. */
  readonly since: number
  /** It has waited long enough that somebody has to see to it. */
  readonly age: 'young' | 'old'
}

const MOST_COUNTED = 500

/** A night without the server is no reason to worry anybody; a day is. Common practice, no source. */
const OLD_MS = 24 * 60 * 60_000

export async function lookAtSending({ log }: Pick<Ports, 'log'>, now: number): Promise<Standing> {
  const [unsent, refused] = [await log.unsent(MOST_COUNTED), await log.rejections()]
  const events = unsent.kind === 'kept' ? unsent.value : []
  const since = Math.min(...events.map(({ at }) => at))
  return {
    kind: 'known',
    unsent: events.length === 0 ? null : { count: events.length, since, age: now - since > OLD_MS ? 'old' : 'young' },
    refused: refused.kind === 'kept' ? refused.value : []
  }
}
