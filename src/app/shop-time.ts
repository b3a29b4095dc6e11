/** Times of day as the shop's clock shows them, daylight saving included, wherever the device thinks it is. */

/** `at` is epoch ms, `zone` an IANA zone: for example `06:05`. */
export function shopTime(at: number, zone: string): string {
  const { hour, minute } = partsOf(at, zone)
  return `${hour}:${minute}`
}

/** To the second: for example `06:05:09`. */
export function shopTimeExact(at: number, zone: string): string {
  return `${shopTime(at, zone)}:${partsOf(at, zone).second}`
}

/** For example `2026-11-01 06:05`. */
export function shopDateTime(at: number, zone: string): string {
  const { year, month, day } = partsOf(at, zone)
  return `${year}-${month}-${day} ${shopTime(at, zone)}`
}

const formats = new Map<string, Intl.DateTimeFormat>()

function partsOf(at: number, zone: string): Readonly<Record<Intl.DateTimeFormatPartTypes, string>> {
  const format =
    formats.get(zone) ??
    new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
      second: '2-digit',
      hourCycle: 'h23'
    })
  formats.set(zone, format)
  return Object.fromEntries(format.formatToParts(at).map(({ type, value }) => [type, value])) as Record<
    Intl.DateTimeFormatPartTypes,
    string
  >
}
