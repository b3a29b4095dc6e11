/** The calendar day in the shop, `YYYY-MM-DD`, at an instant in epoch ms. `zone` is an IANA zone; null when it is none. */
export function shopDay(at: number, zone: string): string | null {
  const format = formats.get(zone) ?? formatFor(zone)
  if (!format) return null
  formats.set(zone, format)
  const parts = new Map(format.formatToParts(at).map(({ type, value }) => [type, value]))
  return `${parts.get('year') ?? ''}-${parts.get('month') ?? ''}-${parts.get('day') ?? ''}`
}

const formats = new Map<string, Intl.DateTimeFormat>()

function formatFor(zone: string): Intl.DateTimeFormat | null {
  try {
    return new Intl.DateTimeFormat('en-GB', { timeZone: zone, year: 'numeric', month: '2-digit', day: '2-digit' })
  } catch {
    return null
  }
}
