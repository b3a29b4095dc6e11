import { localeOf } from './locales.ts'

const known = new Map<string, Intl.DateTimeFormat>()

/** Kept, since a new one costs more than many uses. `zone` is an IANA zone, `language` a BCP 47 tag. */
export function dateFormat(zone: string, language: string, parts: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = JSON.stringify([zone, language, parts])
  const format = known.get(key) ?? new Intl.DateTimeFormat(localeOf(language), { timeZone: zone, ...parts })
  known.set(key, format)
  return format
}
