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
  /** The server's trusted time at its last answer; null while it has never answered. */
  readonly confirmedAt: number | null
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
export const JUMP_MS = 2000

/** What is stored, now and then and with every answer of the server, so that time goes on after a reload or restart. */
export interface Mark {
  readonly trusted: number
  readonly wall: number
  readonly confirmedAt?: number | null
}

/** `lastKnown` is what was stored before a reload or restart; the gap since then counts only when confirmed. */
export function beginTime(reading: Reading, lastKnown: Mark | null): TrustedTime {
  if (lastKnown === null) return { trusted: reading.wall, ...reading, unconfirmedMs: 0, confirmedAt: null }
  const { trusted, wall, confirmedAt = null } = lastKnown
  return { trusted, ...reading, unconfirmedMs: Math.max(0, reading.wall - wall), confirmedAt }
}

export function tick(time: TrustedTime, reading: Reading): Tick {
  const steadyMs = Math.max(0, reading.steady - time.steady)
  const jump = reading.wall - time.wall - steadyMs
  const jumpMs = Math.abs(jump) > JUMP_MS ? jump : 0
  return {
    time: {
      ...time,
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
  return {
    ...time,
    trusted: serverTrusted + Math.max(0, time.steady - answeredAt),
    unconfirmedMs: 0,
    confirmedAt: serverTrusted
  }
}

/** How far behind the truth the stamps of a device may be: those from `since` on, by up to `byMs` (negative: ahead). */
export interface CatchUp {
  readonly since: number
  readonly byMs: number
}

/**
 * What an answer of the server means for waits that this device has begun since the answer before: the time they were
 * stamped with may have lagged behind by as much as they now catch up, so they are due that much later. Without this
 * a wait begun after a sleep, or under a wrong clock, would be over at once when the server answers. `askedAt` is the
 * trusted time, by `time`, when the server was asked: its answer was given then or later.
 */
export function catchUp(time: TrustedTime, askedAt: number, serverTrusted: number): CatchUp {
  return { since: time.confirmedAt ?? 0, byMs: serverTrusted - askedAt }
}
