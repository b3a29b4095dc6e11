import { expect, test } from 'vitest'
import { timeOfDay } from './time-of-day.ts'

/** US daylight saving in 2026 begins on 8 March at 02:00 local time (15 U.S.C. 260a). */
test.each([
  ['2026-03-08T07:59:00Z', 'America/Chicago', 'en-US', '1:59 AM'],
  ['2026-03-08T08:00:00Z', 'America/Chicago', 'en-US', '3:00 AM'],
  ['2026-07-01T23:05:00Z', 'America/Chicago', 'en-US', '6:05 PM'],
  ['2026-07-01T23:05:00Z', 'Europe/Dublin', 'en-IE', '0:05']
])('%s in %s, said in %s, is %s', (utc, zone, locale, said) => {
  expect(timeOfDay(Date.parse(utc), zone, locale)).toBe(said)
})
