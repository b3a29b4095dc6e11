import fc from 'fast-check'
import ICAL from 'ical.js'
import { expect, test } from 'vitest'
import { calendar, type Dated } from './calendar.ts'

const NOW = Date.parse('2026-11-28T12:00:00Z')

function readBack(text: string) {
  const root = new ICAL.Component(ICAL.parse(text) as unknown[])
  return root.getAllSubcomponents('vevent').map((component) => {
    const { uid, summary, description, startDate, endDate } = new ICAL.Event(component)
    return {
      uid,
      title: summary,
      text: description,
      from: startDate.toUnixTime() * 1000,
      to: endDate.toUnixTime() * 1000
    }
  })
}

test('a calendar program reads back every time and every word', () => {
  const words = fc
    .string({ unit: 'grapheme', minLength: 1, maxLength: 120 })
    .map((text) => text.replaceAll(/\p{Cc}/gu, ' '))
  // The years that the format has room for, to the second.
  const instant = fc.integer({ min: 0, max: 4_000_000_000 }).map((seconds) => seconds * 1000)
  const item: fc.Arbitrary<Dated> = fc.record({ uid: words, from: instant, to: instant, title: words, text: words })
  fc.assert(
    fc.property(fc.array(item, { maxLength: 4 }), (items) => {
      expect(readBack(calendar('Due', items, NOW))).toEqual(items)
    })
  )
})

test('lines are at most 75 octets, end with CR LF, and begin and end as RFC 5545 says', () => {
  const item = { uid: 'a', from: NOW, to: NOW, title: 'ß漏🧴'.repeat(60), text: 'x'.repeat(500) }
  const text = calendar('Due', [item], NOW)
  const lines = text.split('\r\n')
  expect(lines.at(-1)).toBe('')
  expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
  expect(Math.max(...lines.map((line) => Buffer.byteLength(line)))).toBe(75)
  expect(lines.slice(0, 2)).toEqual(['BEGIN:VCALENDAR', 'VERSION:2.0'])
  expect(lines.filter((line) => line.startsWith('DTSTAMP:'))).toEqual(['DTSTAMP:20261128T120000Z'])
})

test('line breaks in words stay in their field', () => {
  const item = { uid: 'a', from: NOW, to: NOW, title: 'one\r\nEND:VEVENT', text: 'two\nthree;four,five\\' }
  const [read] = readBack(calendar('Due', [item], NOW))
  expect(read?.title).toBe('one\nEND:VEVENT')
  expect(read?.text).toBe('two\nthree;four,five\\')
})
