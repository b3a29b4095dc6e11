import { dateFormat } from './date-format.ts'

/** A time of day as people say it, on the clock of a zone: "6:05 AM". `at` is epoch ms, `zone` an IANA zone, `language` a BCP 47 tag. */
export function timeOfDay(at: number, zone: string, language: string): string {
  const text = dateFormat(zone, language, { hour: 'numeric', minute: '2-digit' }).format(at)
  // A narrow space that not every voice takes for one.
  return text.replace('\u202F', ' ')
}
