import { describe, expect, test } from 'vitest'
import { BANDS } from './sound.ts'
import { framesIn, withoutSilence } from './utterance.ts'

const frames = (...powers: readonly number[]) =>
  Float32Array.from({ length: powers.length * BANDS }, (_, at) => powers[Math.floor(at / BANDS)] ?? 0)
const room = frames(1, 1, 1, 1)

describe('the silence around an utterance', () => {
  test('is left out where a quiet room was taken for its beginning', () => {
    const speech = frames(1, 2, 2, 1, 1, 5000, 9000, 20, 9000, 5000, 1, 2, 1)
    expect(framesIn(withoutSilence({ speech, room }))).toBe(5 + 2)
  })

  test('is nothing in a noisy room, where a weak sound may be speech', () => {
    const speech = frames(2, 3, 20, 40, 3, 2)
    expect(framesIn(withoutSilence({ speech, room }))).toBe(6)
  })
})
