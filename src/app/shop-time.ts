/**
 * Days and times as the shop's clock and the reader's language show them, daylight saving included, wherever the device
 * thinks it is. `at` is epoch ms, `zone` an IANA zone, `language` a BCP 47 tag.
 */
import { dateFormat } from '../core/talk/date-format.ts'
import { timeOfDay } from '../core/talk/time-of-day.ts'

/** To the second: for example `6:05:09 AM`. */
export const shopTimeExact = (at: number, zone: string, language: string): string =>
  dateFormat(zone, language, { hour: 'numeric', minute: '2-digit', second: '2-digit' }).format(at)

/** The month by its name, since 1/11 is two days: for example `Nov 1, 2026`. */
export const shopDay = (at: number, zone: string, language: string): string =>
  dateFormat(zone, language, { year: 'numeric', month: 'short', day: 'numeric' }).format(at)

/** For example `Nov 1, 2026, 6:05 AM`. */
export function shopDateTime(at: number, zone: string, language: string): string {
  return `${shopDay(at, zone, language)}, ${timeOfDay(at, zone, language)}`
}
