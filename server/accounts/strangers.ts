/** How often somebody may ask whom the shop does not know. In memory: it protects the server, and holds nothing against anybody. */
const SPAN_MS = 60_000
const MOST_IN_SPAN = 300
/** More addresses than these are forgotten, the oldest first. */
const MOST_ADDRESSES = 1000

export interface Strangers {
  /** How long to wait before asking again, ms; 0: ask on. `now`: trusted epoch ms. */
  asks(address: string, now: number): number
}

export function countStrangers(): Strangers {
  const spans = new Map<string, { readonly from: number; asked: number }>()
  return {
    asks(address, now) {
      const known = spans.get(address)
      if (known && now - known.from < SPAN_MS) {
        known.asked += 1
        return known.asked <= MOST_IN_SPAN ? 0 : known.from + SPAN_MS - now
      }
      spans.delete(address)
      spans.set(address, { from: now, asked: 1 })
      const [oldest] = spans.keys()
      if (spans.size > MOST_ADDRESSES && oldest !== undefined) spans.delete(oldest)
      return 0
    }
  }
}
