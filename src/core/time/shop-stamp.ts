/** An instant as a clock in `zone` shows it, with its offset (RFC 3339): `2026-11-01T01:30:00-05:00`. UTC where the zone is none. */
export function shopStamp(at: number, zone: string): string {
  const format = formats.get(zone) ?? formatFor(zone)
  formats.set(zone, format)
  const parts = Object.fromEntries(format.formatToParts(at).map(({ type, value }) => [type, value]))
  const { year = '', month = '', day = '', hour = '', minute = '', second = '', timeZoneName = '' } = parts
  // The long form is GMT-05:00, and GMT alone for no offset.
  const offset = timeZoneName.replace('GMT', '') || '+00:00'
  return `${year}-${month}-${day}T${hour}:${minute}:${second}${offset}`
}

const formats = new Map<string, Intl.DateTimeFormat>()

function formatFor(zone: string): Intl.DateTimeFormat {
  const options: Intl.DateTimeFormatOptions = {
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    second: '2-digit',
    hourCycle: 'h23',
    timeZoneName: 'longOffset'
  }
  try {
    return new Intl.DateTimeFormat('en-GB', { ...options, timeZone: zone })
  } catch {
    return new Intl.DateTimeFormat('en-GB', { ...options, timeZone: 'UTC' })
  }
}
