/**
 * Days and times as the shop's clock and the reader's language show them, daylight saving included, wherever the device
 * thinks it is. `at` is epoch ms, `zone` an IANA zone, `language` a BCP 47 tag.
 */
import { localeOf } from '../core/talk/locales.ts'
import { timeOfDay } from '../core/talk/time-of-day.ts'

const PARTS = {
  day: { year: 'numeric', month: 'short', day: 'numeric' },
  exact: { hour: 'numeric', minute: '2-digit', second: '2-digit' }
} as const satisfies Readonly<Record<string, Intl.DateTimeFormatOptions>>

const formats = new Map<string, Intl.DateTimeFormat>()

function written(at: number, zone: string, language: string, parts: keyof typeof PARTS): string {
  const key = `${parts} ${language} ${zone}`
  const format = formats.get(key) ?? new Intl.DateTimeFormat(localeOf(language), { timeZone: zone, ...PARTS[parts] })
  formats.set(key, format)
  return format.format(at)
}

/** To the second: for example `6:05:09 AM`. */
export const shopTimeExact = (at: number, zone: string, language: string): string =>
  written(at, zone, language, 'exact')

/** The month by its name, since 1/11 is two days: for example `Nov 1, 2026`. */
export const shopDay = (at: number, zone: string, language: string): string => written(at, zone, language, 'day')

/** For example `Nov 1, 2026, 6:05 AM`. */
export function shopDateTime(at: number, zone: string, language: string): string {
  return `${shopDay(at, zone, language)}, ${timeOfDay(at, zone, language)}`
}
