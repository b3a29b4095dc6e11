/** Times of day as the shop's clock shows them, daylight saving included, wherever the device thinks it is. */
import { TZDate } from '@date-fns/tz'
import { lightFormat } from 'date-fns/lightFormat'

/** `at` is epoch ms, `zone` an IANA zone: for example `06:05`. */
export function shopTime(at: number, zone: string): string {
  return lightFormat(new TZDate(at, zone), 'HH:mm')
}

/** For example `2026-11-01 06:05`. */
export function shopDateTime(at: number, zone: string): string {
  return lightFormat(new TZDate(at, zone), 'yyyy-MM-dd HH:mm')
}
