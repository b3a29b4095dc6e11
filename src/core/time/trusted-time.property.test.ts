/**
 * A device is put through everything: its wall clock set at will, sleep that the steady line does not see, reloads that
 * lose all but the mark, a server that tells the truth after delays during which anything may happen. The truth is
 * known to the test alone.
 */
import fc from 'fast-check'
import { expect, it } from 'vitest'
import { beginTime, catchUp, confirm, tick, type Mark, type TrustedTime } from './trusted-time.ts'

type Happening =
  | { readonly kind: 'pass' | 'sleep' | 'set-wall'; readonly ms: number }
  | { readonly kind: 'read' | 'mark' | 'reload' | 'ask' | 'answer' | 'arrive' | 'begin-wait' }

const duration = fc.oneof(fc.nat(100), fc.nat(5000), fc.nat(3_600_000))
const anyTime: fc.Arbitrary<Happening> = fc.oneof(
  fc.record({ kind: fc.constant('pass' as const), ms: duration }),
  fc.record({ kind: fc.constant('sleep' as const), ms: duration }),
  fc.record({
    kind: fc.constant('set-wall' as const),
    ms: fc.oneof(
      duration,
      duration.map((ms) => -ms)
    )
  }),
  fc.constantFrom<Happening>({ kind: 'read' }, { kind: 'mark' }, { kind: 'reload' }, { kind: 'begin-wait' })
)
const withServer: fc.Arbitrary<Happening> = fc.oneof(
  anyTime,
  fc.constantFrom<Happening>({ kind: 'ask' }, { kind: 'answer' }, { kind: 'arrive' })
)

/** A wait as its events tell it: stamped with the device's time, moved by what the device catches up. */
interface Wait {
  readonly begunInTruth: number
  since: number
}

interface Device {
  readonly truth: number
  readonly trusted: number
  readonly waits: readonly Wait[]
  readonly confirmed: boolean
}

/** Plays what happens and shows the device after each happening. */
function play(happenings: readonly Happening[], wallIsWrongBy: number, look: (device: Device) => void): Device {
  let truth = 1e12
  let wall = truth + wallIsWrongBy
  let steady = 0
  let time: TrustedTime = beginTime({ wall, steady }, null)
  let mark: Mark = { trusted: time.trusted, wall, confirmedAt: null }
  let request: { readonly askedAt: number; told: number | null } | null = null
  const waits: Wait[] = []
  const read = () => (time = tick(time, { wall, steady }).time)
  /** What a reading would show now, without taking it: a jump that was not noticed stays unnoticed. */
  const device = (): Device => ({
    truth,
    trusted: tick(time, { wall, steady }).time.trusted,
    waits,
    confirmed: time.confirmedAt !== null
  })
  for (const happening of happenings) {
    switch (happening.kind) {
      case 'pass':
        truth += happening.ms
        wall += happening.ms
        steady += happening.ms
        break
      case 'sleep':
        truth += happening.ms
        wall += happening.ms
        break
      case 'set-wall':
        wall += happening.ms
        break
      case 'read':
        read()
        break
      case 'mark':
        read()
        mark = { trusted: time.trusted, wall: time.wall, confirmedAt: time.confirmedAt }
        break
      case 'reload':
        steady = 0
        time = beginTime({ wall, steady }, mark)
        request = null
        break
      case 'ask':
        request = { askedAt: read().trusted, told: null }
        break
      case 'answer':
        if (request) request.told ??= truth
        break
      case 'arrive': {
        if (!request || request.told === null) break
        const { since, byMs } = catchUp(read(), request.askedAt, request.told)
        for (const wait of waits) if (wait.since >= since) wait.since += byMs
        time = confirm(time, request.told, steady)
        // Stored with the answer: a reload must not go back to a line that was ahead.
        mark = { trusted: time.trusted, wall: time.wall, confirmedAt: time.confirmedAt }
        request = null
        break
      }
      case 'begin-wait':
        waits.push({ begunInTruth: truth, since: read().trusted })
    }
    look(device())
  }
  return device()
}

const anyWrong = fc.oneof(fc.constant(0), fc.integer({ min: -10_000_000, max: 10_000_000 }))

it('gains no more than really passed between any two moments, with no server to ask', () => {
  fc.assert(
    fc.property(fc.array(anyTime, { maxLength: 40 }), anyWrong, (happenings, wrong) => {
      let [leastAhead, seen] = [Number.POSITIVE_INFINITY, 0]
      play(happenings, wrong, ({ truth, trusted }) => {
        // Never further ahead of the truth than it ever was: so it gained no more than the truth did.
        leastAhead = Math.min(leastAhead, trusted - truth)
        expect(trusted - truth).toBeLessThanOrEqual(leastAhead)
        seen += 1
      })
      expect(seen).toBe(happenings.length)
    }),
    { numRuns: 500 }
  )
})

it('is never ahead of the truth once the server has told it', () => {
  fc.assert(
    fc.property(fc.array(withServer, { maxLength: 60 }), anyWrong, (happenings, wrong) => {
      play([{ kind: 'ask' }, { kind: 'answer' }, ...happenings], wrong, ({ truth, trusted, confirmed }) => {
        expect(confirmed && trusted > truth).toBe(false)
      })
    }),
    { numRuns: 1000 }
  )
})

it('catches up with the truth as soon as a server answers at once', () => {
  fc.assert(
    fc.property(fc.array(withServer, { maxLength: 40 }), anyWrong, (happenings, wrong) => {
      const { truth, trusted } = play(
        [...happenings, { kind: 'ask' }, { kind: 'answer' }, { kind: 'arrive' }],
        wrong,
        () => undefined
      )
      expect(trusted).toBe(truth)
    }),
    { numRuns: 500 }
  )
})

it('lets no wait seem longer ago than it really is, whatever the device went through', () => {
  fc.assert(
    fc.property(fc.array(withServer, { maxLength: 60 }), anyWrong, (happenings, wrong) => {
      play(happenings, wrong, ({ truth, trusted, waits }) => {
        for (const { begunInTruth, since } of waits) expect(trusted - since).toBeLessThanOrEqual(truth - begunInTruth)
      })
    }),
    { numRuns: 3000 }
  )
})

it('gives a wait credit for a sleep, once the server had answered after its beginning', () => {
  fc.assert(
    fc.property(fc.nat(3_600_000), fc.nat(3_600_000), anyWrong, (before, asleep, wrong) => {
      const now: Happening[] = [{ kind: 'ask' }, { kind: 'answer' }, { kind: 'arrive' }]
      const story: Happening[] = [
        { kind: 'begin-wait' },
        { kind: 'pass', ms: 1 },
        ...now,
        { kind: 'pass', ms: before },
        { kind: 'sleep', ms: asleep },
        ...now
      ]
      const { trusted, waits } = play(story, wrong, () => undefined)
      expect(trusted - (waits[0]?.since ?? 0)).toBe(1 + before + asleep)
    })
  )
})
