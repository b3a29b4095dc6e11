/**
 * Time that waits can be built on. It follows the device's steady line, never its wall clock alone: a wall clock that
 * jumps forward (someone set it, or the device slept where the steady line stands still) is believed only when the
 * server confirms that the time really passed. So no wait gets shorter; at worst one gets longer until the server answers.
 */

export interface TrustedTime {
  /** Trusted epoch ms at `steady`. */
  readonly trusted: number
  readonly steady: number
  readonly wall: number
  /** Wall time that passed without the steady line seeing it and that nobody has confirmed yet, ms. */
  readonly unconfirmedMs: number
}

export interface Reading {
  readonly wall: number
  readonly steady: number
}

export interface Tick {
  readonly time: TrustedTime
  /** Signed size of a jump of the wall clock against the steady line noticed at this reading, ms; 0 when none. */
  readonly jumpMs: number
}

/** Smaller differences are the ordinary drift and rounding of clocks. */
const JUMP_MS = 2000

/** `lastKnown` is what was stored before a reload or restart; the gap since then counts only when confirmed. */
export function beginTime(
  reading: Reading,
  lastKnown: { readonly trusted: number; readonly wall: number } | null
): TrustedTime {
  if (lastKnown === null) return { trusted: reading.wall, ...reading, unconfirmedMs: 0 }
  return { trusted: lastKnown.trusted, ...reading, unconfirmedMs: Math.max(0, reading.wall - lastKnown.wall) }
}

export function tick(time: TrustedTime, reading: Reading): Tick {
  const steadyMs = Math.max(0, reading.steady - time.steady)
  const jump = reading.wall - time.wall - steadyMs
  const jumpMs = Math.abs(jump) > JUMP_MS ? jump : 0
  return {
    time: {
      trusted: time.trusted + steadyMs,
      steady: reading.steady,
      wall: reading.wall,
      unconfirmedMs: Math.max(0, time.unconfirmedMs + jumpMs)
    },
    jumpMs
  }
}

/**
 * Takes the server's trusted time, which arrived at `answeredAt` on the steady line. The answer was true when it was
 * given or earlier, never later, so adding only what passed since it arrived is always on the safe side. A device that
 * was ahead goes back with it: two devices on one run must not disagree about when a wait is over.
 */
export function confirm(time: TrustedTime, serverTrusted: number, answeredAt: number): TrustedTime {
  return { ...time, trusted: serverTrusted + Math.max(0, time.steady - answeredAt), unconfirmedMs: 0 }
}
