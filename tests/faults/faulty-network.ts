/** A kitchen's network in simulated time: it drops, loses answers, repeats, delays and so reorders. */
import type { Chance } from '../helpers/seeded.ts'
import type { Clock } from '../../src/ports/clock.ts'

export interface NetworkFaults {
  /** Shares of requests: never arrive; arrive, but the answer is lost; arrive twice. */
  drop: number
  lose: number
  repeat: number
  /** The longest that a request or an answer is under way, ms. */
  delayMs: number
}

/** Less than after which the page gives a request up (devices/ask-server.ts). */
export const LONGEST_DELAY_MS = 4000

export const PERFECT: NetworkFaults = { drop: 0, lose: 0, repeat: 0, delayMs: 0 }

export interface NetworkTally {
  dropped: number
  lost: number
  repeated: number
  delayed: number
}

export interface FaultyNetwork {
  /** Stands for `fetch`. */
  readonly fetch: typeof fetch
  set(faults: NetworkFaults): void
  /** Hosts that reach nobody, whatever else works. */
  cutOff(hosts: readonly string[]): void
  readonly tally: NetworkTally
}

export function faultyNetwork(
  serve: (request: Request) => Promise<Response>,
  clock: Clock,
  chance: Chance
): FaultyNetwork {
  let faults = PERFECT
  let away: readonly string[] = []
  const tally: NetworkTally = { dropped: 0, lost: 0, repeated: 0, delayed: 0 }
  const unreachable = () => new TypeError('fetch failed')
  const underWay = (): Promise<void> => {
    const ms = Math.floor(chance() * faults.delayMs)
    if (ms === 0) return Promise.resolve()
    tally.delayed += 1
    return new Promise((arrive) => clock.after(ms, arrive))
  }
  const ask = async (input: RequestInfo | URL, init?: RequestInit): Promise<Response> => {
    // The real time limit must not cut simulated time short.
    const request = () => new Request(input, { ...init, signal: null })
    const { drop, lose, repeat } = faults
    const fate = chance()
    if (fate < drop || away.includes(new URL(request().url).hostname)) {
      tally.dropped += 1
      throw unreachable()
    }
    await underWay()
    if (fate < drop + repeat) {
      tally.repeated += 1
      const first = await serve(request())
      await first.arrayBuffer()
    }
    const answer = await serve(request())
    await underWay()
    if (fate > 1 - lose) {
      tally.lost += 1
      await answer.arrayBuffer()
      throw unreachable()
    }
    return answer
  }
  return {
    fetch: ask,
    set(given) {
      faults = given
    },
    cutOff(hosts) {
      away = hosts
    },
    tally
  }
}
