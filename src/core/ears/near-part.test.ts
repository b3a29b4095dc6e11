import { expect, test } from 'vitest'
import { nearPart } from './near-part.ts'
import { BANDS } from './sound.ts'

const frames = (count: number, power: number) => new Float32Array(count * BANDS).fill(power)
const room = frames(1, 0.01)

function spoken(...parts: readonly Float32Array[]) {
  return { speech: Float32Array.from(parts.flatMap((part) => [...part])), room }
}

test('the end of an utterance that is louder than what came before is taken alone', () => {
  const utterance = spoken(frames(40, 1), frames(50, 4))
  expect(nearPart(utterance, 50)).toEqual({ speech: frames(50, 4), room })
})

test('talk that goes on as loud as before is not cut, nor what is hardly longer', () => {
  expect(nearPart(spoken(frames(40, 1), frames(50, 3)), 50)).toBeNull()
  expect(nearPart(spoken(frames(14, 1), frames(50, 4)), 50)).toBeNull()
  expect(nearPart(spoken(frames(50, 3)), 60)).toBeNull()
})
