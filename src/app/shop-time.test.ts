import fc from 'fast-check'
import { expect, test } from 'vitest'
import { timeOfDay } from '../core/talk/time-of-day.ts'
import { shopDateTime, shopDay } from './shop-time.ts'

/** The platform's own zone data (ICU, from the IANA time zone database) is the judge. */
function byPlatform(at: number, zone: string): string {
  const parts = new Intl.DateTimeFormat('en-CA', {
    timeZone: zone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23'
  }).formatToParts(at)
  const of = (type: string) => parts.find((part) => part.type === type)?.value ?? ''
  const hour = Number(of('hour'))
  const time = `${hour % 12 || 12}:${of('minute')} ${hour < 12 ? 'AM' : 'PM'}`
  return `${MONTHS[Number(of('month')) - 1]} ${Number(of('day'))}, ${of('year')}, ${time}`
}

/** Some versions of ICU put a narrow space before AM. */
const plain = (text: string) => text.replaceAll('\u202F', ' ')

const MONTHS = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ')

const ZONES = [
  'America/Chicago',
  'Europe/Dublin',
  'Australia/Sydney',
  'Asia/Kathmandu',
  'America/Phoenix',
  'Pacific/Auckland',
  'UTC'
]

test('agrees with the platform at any time in any of seven zones', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...ZONES),
      fc.integer({ min: Date.UTC(2020, 0), max: Date.UTC(2037, 0) }),
      (zone, at) => {
        expect(plain(shopDateTime(at, zone, 'en'))).toBe(byPlatform(at, zone))
      }
    ),
    { numRuns: 500 }
  )
})

/** Abbreviated months of the Unicode Common Locale Data Repository. */
test('the month is a word of the language, so that no day is taken for a month', () => {
  const at = Date.parse('2026-01-11T12:00:00Z')
  expect(shopDay(at, 'UTC', 'en')).toBe('Jan 11, 2026')
  expect(shopDay(at, 'UTC', 'es')).toBe('11 ene 2026')
})

/** US daylight saving in 2026 ends on 1 November and begins on 8 March at 02:00 local time (15 U.S.C. 260a). */
test.each([
  ['2026-11-01T06:30:00Z', 'America/Chicago', '1:30 AM'],
  ['2026-11-01T07:30:00Z', 'America/Chicago', '1:30 AM'],
  ['2026-11-01T08:30:00Z', 'America/Chicago', '2:30 AM'],
  ['2026-03-08T07:59:00Z', 'America/Chicago', '1:59 AM'],
  ['2026-03-08T08:00:00Z', 'America/Chicago', '3:00 AM'],
  // Summer time in the EU ends on the last Sunday of October at 01:00 UTC (Directive 2000/84/EC).
  ['2026-10-25T00:59:00Z', 'Europe/Dublin', '1:59 AM'],
  ['2026-10-25T01:00:00Z', 'Europe/Dublin', '1:00 AM']
])('%s in %s is %s', (utc, zone, local) => {
  expect(plain(timeOfDay(Date.parse(utc), zone, 'en'))).toBe(local)
})

test('a wait of twenty minutes across the end of daylight saving is still twenty minutes', () => {
  const begun = Date.parse('2026-11-01T06:50:00Z')
  const shown = [begun, begun + 20 * 60_000].map((at) => plain(timeOfDay(at, 'America/Chicago', 'en')))
  expect(shown).toEqual(['1:50 AM', '1:10 AM'])
})
