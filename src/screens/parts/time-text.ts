/** Times as figures that can be read across a room. */

const HOUR_MS = 3_600_000
/** From here on hours are easier to grasp than minutes. */
const LONG_MS = 100 * 60_000

/** Time left, `4:05` or `2 h 05`; rounded up, so that nothing is promised early. */
export function leftText(ms: number): string {
  return figures(Math.ceil(Math.max(0, ms) / 1000) * 1000)
}

/** Time gone by, rounded down. */
export function agoText(ms: number): string {
  return figures(Math.floor(Math.max(0, ms) / 1000) * 1000)
}

function figures(ms: number): string {
  if (ms >= LONG_MS) {
    const minutes = Math.ceil((ms % HOUR_MS) / 60_000)
    // 1 h 59 min 30 s rounds up to the next hour.
    return `${Math.floor(ms / HOUR_MS) + Math.floor(minutes / 60)} h ${two(minutes % 60)}`
  }
  return `${Math.floor(ms / 60_000)}:${two((ms % 60_000) / 1000)}`
}

function two(value: number): string {
  return String(value).padStart(2, '0')
}
