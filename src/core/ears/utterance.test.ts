import { describe, expect, test } from 'vitest'
import { BANDS } from './sound.ts'
import { framesIn, loudPart, withoutSilence } from './utterance.ts'

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

describe('beside other talk', () => {
  test('the loud part is the operator, nearer than the others', () => {
    const speech = frames(...Array.from({ length: 30 }, () => 40), ...Array.from({ length: 40 }, () => 900), 60, 60)
    const part = loudPart({ speech, room: frames(50, 40, 60) })
    expect(part && framesIn(part)).toBe(1 + 40 + 1)
  })

  test('there is no other part in a quiet room, nor where all is as loud', () => {
    const speech = frames(...Array.from({ length: 30 }, () => 40), ...Array.from({ length: 40 }, () => 900))
    expect(loudPart({ speech, room })).toBeNull()
    expect(loudPart({ speech: speech.slice(30 * BANDS), room: frames(50, 40, 60) })).toBeNull()
  })
})
