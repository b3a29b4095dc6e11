import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { afterSession, FRESH, listening, signOfLife, type EarsHealth, type SessionEnd } from './ears-policy.ts'

const failure = (code: string, afterMs = 3000, online = true): SessionEnd => ({ kind: 'error', code, afterMs, online })

/** Goes through `ends` one after another, `everyMs` apart. */
function live(ends: readonly SessionEnd[], { from = FRESH, chance = 0, everyMs = 10_000 } = {}) {
  let health: EarsHealth = from
  let now = 0
  return ends.map((end) => {
    now += everyMs
    const after = afterSession(health, end, now, chance)
    health = after.health
    return after.next
  })
}

describe('policy of the ears', () => {
  test.each(['no-speech', 'aborted'])('%s is ordinary: a short rest', (code) => {
    expect(live([failure(code)])).toEqual([{ kind: 'rest', ms: 300, reason: null }])
  })

  test.each(['not-allowed', 'service-not-allowed'])('%s is a denial, with no retry', (code) => {
    expect(live([failure(code)])).toEqual([{ kind: 'deaf', reason: 'denied' }])
  })

  test('a start that the browser forbids is a denial; any other throw is worth a retry', () => {
    expect(live([{ kind: 'start-threw', name: 'NotAllowedError' }])).toEqual([{ kind: 'deaf', reason: 'denied' }])
    expect(live([{ kind: 'start-threw', name: 'InvalidStateError' }])).toMatchObject([
      { kind: 'rest', reason: 'not-answering' }
    ])
  })

  test('a missing microphone is tried again ever more slowly, up to a minute', () => {
    const delays = live(Array.from({ length: 9 }, () => failure('audio-capture'))).map(
      (next) => next.kind === 'rest' && next.ms
    )
    expect(delays).toEqual([1000, 2000, 4000, 8000, 16_000, 32_000, 60_000, 60_000, 60_000])
  })

  test('chance adds up to a quarter', () => {
    expect(live([failure('audio-capture')], { chance: 1 })).toMatchObject([{ ms: 1250 }])
  })

  test('a minute of health starts the waiting over', () => {
    const tired: EarsHealth = { ...FRESH, backoffs: 5, healthySince: 0 }
    expect(live([failure('audio-capture')], { from: tired, everyMs: 59_999 })).toMatchObject([{ ms: 32_000 }])
    expect(live([failure('audio-capture')], { from: tired, everyMs: 60_000 })).toMatchObject([{ ms: 1000 }])
  })

  test('health counts from the first listening after a failure, not from each session', () => {
    const once = listening(FRESH, 100)
    expect(listening(once, 5000)).toBe(once)
    expect(afterSession(once, failure('audio-capture'), 200, 0).health.healthySince).toBe(null)
  })

  test('a network error at once while online means that there is no engine', () => {
    expect(live([failure('network', 99)])).toEqual([{ kind: 'deaf', reason: 'no-engine' }])
    expect(live([failure('network', 100)])).toMatchObject([{ kind: 'rest', reason: 'no-engine' }])
  })

  test('so do three slow ones in a row, but not when something was heard between', () => {
    const slow = failure('network')
    expect(live([slow, slow, slow]).at(-1)).toEqual({ kind: 'deaf', reason: 'no-engine' })
    const two = afterSession(afterSession(FRESH, slow, 1, 0).health, slow, 2, 0).health
    expect(afterSession(signOfLife(two, 'engine'), slow, 3, 0).next).toMatchObject({ kind: 'rest' })
    expect(afterSession(signOfLife(two, 'microphone'), slow, 3, 0).next.kind).toBe('deaf')
  })

  test('a network error without a network never blames the engine', () => {
    const next = live(Array.from({ length: 10 }, () => failure('network', 5, false)))
    expect(next.every((one) => one.kind === 'rest' && one.reason === 'no-engine')).toBe(true)
  })

  test('two sessions without an answer make it deaf, but not when something was heard between', () => {
    expect(live([{ kind: 'no-answer' }, { kind: 'no-answer' }])).toMatchObject([
      { kind: 'rest', reason: 'not-answering' },
      { kind: 'deaf', reason: 'not-answering' }
    ])
    const one = afterSession(FRESH, { kind: 'no-answer' }, 1, 0).health
    expect(afterSession(signOfLife(one, 'microphone'), { kind: 'no-answer' }, 2, 0).next.kind).toBe('rest')
  })

  test('more than twenty ends a minute means backing off', () => {
    const next = live(
      Array.from({ length: 21 }, () => ({ kind: 'ended' }) as const),
      { everyMs: 1000 }
    )
    expect(next.slice(0, 20).every((one) => one.kind === 'rest' && one.reason === null)).toBe(true)
    expect(next[20]).toEqual({ kind: 'rest', ms: 1000, reason: 'not-answering' })
  })

  test('ends three seconds apart go on for ever', () => {
    const next = live(
      Array.from({ length: 100 }, () => ({ kind: 'ended' }) as const),
      { everyMs: 3000 }
    )
    expect(next.every((one) => one.kind === 'rest' && one.reason === null)).toBe(true)
  })

  test('a missing language is for the caller to change; an unknown error backs off', () => {
    expect(live([failure('language-not-supported')])).toEqual([{ kind: 'other-language' }])
    expect(live([failure('something-new')])).toMatchObject([{ kind: 'rest', reason: 'not-answering' }])
  })

  test('whatever happens, the answer is a bounded rest or a settled state', () => {
    const anyEnd: fc.Arbitrary<SessionEnd> = fc.oneof(
      fc.constant({ kind: 'ended' } as const),
      fc.constant({ kind: 'no-answer' } as const),
      fc.record({ kind: fc.constant('start-threw' as const), name: fc.string() }),
      fc.record({
        kind: fc.constant('error' as const),
        code: fc.constantFrom(
          'network',
          'audio-capture',
          'no-speech',
          'aborted',
          'not-allowed',
          'language-not-supported',
          'x'
        ),
        afterMs: fc.nat(30_000),
        online: fc.boolean()
      })
    )
    fc.assert(
      fc.property(fc.array(anyEnd), fc.double({ min: 0, max: 1, noNaN: true }), (ends, chance) => {
        for (const next of live(ends, { chance })) {
          if (next.kind !== 'rest') continue
          expect(next.ms).toBeGreaterThanOrEqual(300)
          expect(next.ms).toBeLessThanOrEqual(75_000)
        }
      })
    )
  })
})
