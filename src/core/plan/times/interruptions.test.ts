import { describe, expect, it } from 'vitest'
import { interruptionsIn } from './interruptions.ts'

/** Times of 60 s, as expected but for those given. */
function timesOf(count: number, others: readonly number[] = []) {
  const usual = Array.from({ length: count }, () => ({ seconds: 60, rest: 0 }))
  return [...usual, ...others.map((seconds) => ({ seconds, rest: Math.log(seconds / 60) }))]
}

describe('interruptions', () => {
  it('are none where times spread as they do, or nothing is known', () => {
    expect(interruptionsIn([], 0.1)).toEqual({ lost: 0, squared: 0, cubed: 0 })
    expect(interruptionsIn(timesOf(50, [30, 90, 110, 25]), 0.1)).toEqual({ lost: 0, squared: 0, cubed: 0 })
  })

  it('take what they took of all hands-on work, half an hour without any put before it', () => {
    const { lost, squared, cubed } = interruptionsIn(timesOf(28, [360, 660]), 0.1)
    expect([lost, squared, cubed].map((sum) => sum * 3600)).toEqual([
      expect.closeTo(300 + 600, 6),
      expect.closeTo(300 ** 2 + 600 ** 2, 3),
      expect.closeTo(300 ** 3 + 600 ** 3, 0)
    ])
  })

  it('of a tablet left overnight count as ten minutes', () => {
    expect(interruptionsIn(timesOf(29, [8 * 3600]), 0.1).lost * 3600).toBeCloseTo(600, 6)
  })
})
