import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { startBy, type StartBy } from './start-by.ts'

const HOUR = 3600_000
const MINUTE = 60_000

/** The platform's own zone data (ICU, from the IANA time zone database) is the judge: what a clock there shows. */
function clockIn(zone: string): (at: number) => { readonly day: string; readonly time: string } {
  const format = new Intl.DateTimeFormat('en-CA', {
    timeZone: zone,
    dateStyle: 'short',
    timeStyle: 'short',
    hourCycle: 'h23'
  })
  return (at) => {
    const [day = '', time = ''] = format.format(at).split(', ')
    return { day, time }
  }
}

const minutesOf = (time: string) => Number(time.slice(0, 2)) * 60 + Number(time.slice(3))

/** Half an hour of daylight saving, south of the equator, far from UTC on both sides, and none at all. */
const ZONES = ['America/Chicago', 'Europe/Dublin', 'Australia/Lord_Howe', 'Pacific/Auckland', 'Asia/Kathmandu']

function opening(time: string, zone: string, now: number): number {
  const by = startBy({ time, zone }, 0, now)
  if (by.kind !== 'begin') throw new Error(by.kind)
  return by.opensAt
}

/** Changes of daylight saving in these zones. */
const CHANGES = [
  '2026-03-08T08:00Z',
  '2026-11-01T07:00Z',
  '2026-03-29T01:00Z',
  '2026-10-25T01:00Z',
  '2026-04-04T15:00Z',
  '2026-10-03T15:30Z',
  '2026-09-26T14:00Z'
].map((text) => Date.parse(text))

const anyNow = fc.oneof(
  fc.integer({ min: Date.UTC(2024, 0), max: Date.UTC(2032, 0) }),
  fc
    .tuple(fc.constantFrom(...CHANGES), fc.integer({ min: -24 * 60, max: 120 }))
    .map(([change, minutes]) => change + minutes * MINUTE)
)

/** Half past one or two is what the changes leave out or show twice. */
const anyTime = fc.oneof(
  fc.constantFrom('01:30', '02:00', '02:15', '02:30', '03:00'),
  fc
    .tuple(fc.integer({ min: 0, max: 23 }), fc.integer({ min: 0, max: 59 }))
    .map(([hour, minute]) => `${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`)
)

test('the opening is the first moment of a day at which a clock in the shop shows it, minute by minute', () => {
  fc.assert(
    fc.property(fc.constantFrom(...ZONES), anyTime, anyNow, (zone, time, moment) => {
      const now = Math.floor(moment / MINUTE) * MINUTE
      const clock = clockIn(zone)
      const minutes = Array.from({ length: 78 * 60 }, (_, index) => {
        const at = now + (index - 26 * 60) * MINUTE
        return { at, ...clock(at) }
      })
      const firsts = new Map<string, number>()
      for (const { at, day, time: shown } of minutes) if (shown === time && !firsts.has(day)) firsts.set(day, at)
      const opensAt = opening(time, zone, now)
      const { day, time: shown } = clock(opensAt)
      const following = [...firsts.values()].find((at) => at > now)
      if (shown === time) {
        expect(opensAt).toBe(following)
        return
      }
      // Left out by a clock put forward: earlier by as much as it was put forward.
      const jump = minutes.findIndex(
        (minute, index) => minute.day === day && minutesOf(minute.time) - minutesOf(minutes[index - 1]?.time ?? '') > 1
      )
      const putForward = minutesOf(minutes[jump]?.time ?? '') - minutesOf(minutes[jump - 1]?.time ?? '') - 1
      expect(firsts.has(day)).toBe(false)
      expect(minutesOf(shown) + putForward).toBe(minutesOf(time))
      expect(opensAt).toBeLessThan(following ?? 0)
    }),
    { numRuns: 100 }
  )
})

describe('when clocks change', () => {
  /** US daylight saving in 2026: 8 March to 1 November at 02:00 local time (15 U.S.C. 260a). */
  it('a time that is left out counts as if the clock had been put forward before', () => {
    expect(opening('02:30', 'America/Chicago', Date.parse('2026-03-08T05:00:00Z'))).toBe(
      Date.parse('2026-03-08T07:30:00Z')
    )
  })

  it('a time that comes twice is the first of the two', () => {
    expect(opening('01:30', 'America/Chicago', Date.parse('2026-11-01T05:00:00Z'))).toBe(
      Date.parse('2026-11-01T06:30:00Z')
    )
  })

  /** EU summer time in 2026: 29 March to 25 October at 01:00 UTC (Directive 2000/84/EC). */
  it.each([
    ['2026-03-28T22:00:00Z', '2026-03-29T05:00:00Z'],
    ['2026-10-24T21:00:00Z', '2026-10-25T06:00:00Z']
  ])('begins as long before six in Dublin as it takes, seen from %s', (now, six) => {
    expect(startBy({ time: '06:00', zone: 'Europe/Dublin' }, 3 * HOUR, Date.parse(now))).toEqual({
      kind: 'begin',
      at: Date.parse(six) - 3 * HOUR,
      opensAt: Date.parse(six)
    })
  })

  /** Samoa went from 29 to 31 December 2011 (IANA time zone database, file australasia). */
  it('finds the next opening across a day that a zone skipped', () => {
    expect(opening('08:00', 'Pacific/Apia', Date.parse('2011-12-29T20:00:00Z'))).toBe(
      Date.parse('2011-12-30T18:00:00Z')
    )
  })
})

it('says by how much it is too late', () => {
  const now = Date.parse('2026-06-01T10:00:00Z')
  expect(startBy({ time: '11:00', zone: 'UTC' }, 90 * MINUTE, now)).toEqual({
    kind: 'late',
    byMs: 30 * MINUTE,
    opensAt: now + HOUR
  })
})

it.each<readonly [string, string, StartBy['kind']]>([
  ['25:00', 'UTC', 'bad-time'],
  ['6:00', 'UTC', 'bad-time'],
  ['', 'UTC', 'bad-time'],
  ['06:00', 'Nowhere/Land', 'unknown-zone'],
  ['06:00', '', 'unknown-zone']
])('refuses %j in %j: %s', (time, zone, kind) => {
  expect(startBy({ time, zone }, 0, 0).kind).toBe(kind)
})
