/** When to offer other ways to somebody who is almost understood, twice in a row. */
import type { Clock } from '../ports/clock.ts'

const WITHIN_MS = 15_000

export interface NearMisses {
  /** True for the second in a row, once for each call: nobody wants an answer to every word that is said in a kitchen. */
  isTimeToOffer(callKey: string): boolean
  /** Something was understood. */
  end(): void
}

export function nearMisses(clock: Pick<Clock, 'steady'>): NearMisses {
  let last = Number.NEGATIVE_INFINITY
  let offeredAt = ''
  return {
    isTimeToOffer(callKey) {
      const isSecond = clock.steady() - last < WITHIN_MS
      last = clock.steady()
      if (!isSecond || offeredAt === callKey) return false
      offeredAt = callKey
      return true
    },
    end() {
      last = Number.NEGATIVE_INFINITY
    }
  }
}
