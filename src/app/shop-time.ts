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

/** The month by its name, since 1/11 is two days. `language` is a BCP 47 tag: `Nov 1, 2026` in English. */
export function shopDay(at: number, zone: string, language: string): string {
  return dayFormat(zone, language).format(at)
}

/** For example `Nov 1, 2026, 06:05`. */
export function shopDateTime(at: number, zone: string, language: string): string {
  return `${shopDay(at, zone, language)}, ${shopTime(at, zone)}`
}

const days = new Map<string, Intl.DateTimeFormat>()

function dayFormat(zone: string, language: string): Intl.DateTimeFormat {
  const key = `${language} ${zone}`
  const format =
    days.get(key) ??
    new Intl.DateTimeFormat(language, { timeZone: zone, year: 'numeric', month: 'short', day: 'numeric' })
  days.set(key, format)
  return format
}

const formats = new Map<string, Intl.DateTimeFormat>()

function partsOf(at: number, zone: string): Readonly<Record<Intl.DateTimeFormatPartTypes, string>> {
  const format =
    formats.get(zone) ??
    new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
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
