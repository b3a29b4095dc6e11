/** A time of day as people of a locale say it, on the clock of a zone: "6:05 AM". `at` is epoch ms, `zone` an IANA zone. */
export function timeOfDay(at: number, zone: string, locale: string): string {
  const text = new Intl.DateTimeFormat(locale, { hour: 'numeric', minute: '2-digit', timeZone: zone }).format(at)
  // A narrow space that not every voice takes for one.
  return text.replace('\u202F', ' ')
}
