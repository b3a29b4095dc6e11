import { describe, expect, test } from 'vitest'
import { shopDay } from './shop-day.ts'
import { shopStamp } from './shop-stamp.ts'

// Changes of clocks: IANA time zone database, America/Chicago, Europe/Berlin and Australia/Lord_Howe (half an hour), 2026.
describe('an instant in the shop', () => {
  test.each([
    ['2026-11-01T06:30:00Z', 'America/Chicago', '2026-11-01T01:30:00-05:00'],
    ['2026-11-01T07:30:00Z', 'America/Chicago', '2026-11-01T01:30:00-06:00'],
    ['2026-03-08T07:59:59Z', 'America/Chicago', '2026-03-08T01:59:59-06:00'],
    ['2026-03-08T08:00:00Z', 'America/Chicago', '2026-03-08T03:00:00-05:00'],
    ['2026-10-25T00:30:00Z', 'Europe/Berlin', '2026-10-25T02:30:00+02:00'],
    ['2026-10-25T01:30:00Z', 'Europe/Berlin', '2026-10-25T02:30:00+01:00'],
    ['2026-04-04T14:59:00Z', 'Australia/Lord_Howe', '2026-04-05T01:59:00+11:00'],
    ['2026-04-04T15:00:00Z', 'Australia/Lord_Howe', '2026-04-05T01:30:00+10:30'],
    ['2026-11-28T12:00:00Z', 'UTC', '2026-11-28T12:00:00+00:00'],
    ['2026-11-28T12:00:00Z', 'No/Where', '2026-11-28T12:00:00+00:00']
  ])('%s in %s is %s', (instant, zone, shown) => {
    expect(shopStamp(Date.parse(instant), zone)).toBe(shown)
    expect(Date.parse(shown)).toBe(Date.parse(instant))
  })

  test('belongs to the day of the shop, not of the server', () => {
    expect(shopDay(Date.parse('2026-11-01T04:59:00Z'), 'America/Chicago')).toBe('2026-10-31')
    expect(shopDay(Date.parse('2026-11-01T05:00:00Z'), 'America/Chicago')).toBe('2026-11-01')
    expect(shopDay(0, 'No/Where')).toBeNull()
  })
})
