import canonicalize from 'canonicalize'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { anyEvent } from '../../../tests/helpers/any-event.ts'
import { counting, STARTED } from '../../../tests/helpers/stamping.ts'
import { readEvent } from './wire.ts'

const started = counting()(1_790_000_000_000)(STARTED)

/** As it arrives on the other end. */
function sent(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value)) as unknown
}

function why(value: unknown): string {
  const read = readEvent(sent(value))
  return read.kind === 'malformed' ? read.why : 'taken'
}

describe('events on the wire', () => {
  test('every kind of event arrives as it was sent', () => {
    fc.assert(
      fc.property(anyEvent, (event) => {
        // JSON has no minus zero; RFC 8785 writes it as 0 too.
        expect(readEvent(sent(event))).toEqual({ kind: 'event', event: sent(event) })
      })
    )
  })

  test('no part may be missing but who was known', () => {
    fc.assert(
      fc.property(
        anyEvent.chain((event) =>
          fc.record({
            event: fc.constant(event),
            key: fc.constantFrom(...Object.keys(event).filter((part) => part !== 'who'))
          })
        ),
        ({ event, key }) => {
          const { [key]: _, ...rest } = { ...event } as Record<string, unknown>
          expect(readEvent(sent(rest)).kind).toBe('malformed')
        }
      )
    )
  })

  test('nothing may be added that nobody has checked', () => {
    fc.assert(
      fc.property(anyEvent, (event) => {
        expect(readEvent(sent({ ...event, note: 'x' })).kind).toBe('malformed')
      })
    )
  })

  test('anything else is malformed, and reading it never fails', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        expect(readEvent(value).kind).toBe('malformed')
      })
    )
  })

  test('whatever is taken has a canonical form, and so a hash', () => {
    // RFC 8785, 3.2.2.2: a string that is no sequence of Unicode characters must stop the making of a canonical form.
    const text = fc.string({ unit: 'binary', maxLength: 8 })
    const halves = fc.array(fc.integer({ min: 0xd7fe, max: 0xe001 }), { maxLength: 4 })
    fc.assert(
      fc.property(text, halves, (text, codes) => {
        const event = { ...started, by: text + String.fromCharCode(...codes) }
        const read = readEvent(sent(event))
        const canonical = () => canonicalize(event)
        if (read.kind === 'event') expect(canonical()).toBeTypeOf('string')
        else expect(canonical).toThrow()
      })
    )
  })

  test('what is wrong is named with its place', () => {
    expect(why({ ...started, seq: 0 })).toMatch(/^seq: .*1/)
    expect(why({ ...started, type: 'run-begun' })).toMatch(/^type: /)
    expect(why({ ...started, at: 'now' })).toMatch(/^at: /)
    expect(why({ ...started, site: '\ud83d' })).toBe('site: half a character')
    expect(why([])).toMatch(/^type: |^event: /)
  })

  test('times are instants of the calendar, ids are short, words are bounded', () => {
    // The last instant a Date can hold: ECMA-262, "Time Values and Time Range".
    expect(why({ ...started, at: 8.64e15 })).toBe('taken')
    expect(why({ ...started, at: 8.64e15 + 2 })).toMatch(/^at: /)
    expect(why({ ...started, at: -1 })).toMatch(/^at: /)
    expect(why({ ...started, at: Number.POSITIVE_INFINITY })).toMatch(/^at: /)
    expect(why({ ...started, id: '' })).toMatch(/^id: /)
    expect(why({ ...started, id: 'x'.repeat(101) })).toMatch(/^id: /)
    expect(why({ ...started, by: 'x'.repeat(2000) })).toBe('taken')
    expect(why({ ...started, by: 'x'.repeat(2001) })).toMatch(/^by: /)
  })
})
