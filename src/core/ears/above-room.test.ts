import { expect, test } from 'vitest'
import { aboveRoom } from './above-room.ts'
import { BANDS } from './sound.ts'

const frame = (room: number, voice: number) =>
  Float32Array.from({ length: BANDS }, (_, band) => (band === 9 ? voice : room))

test('a voice in one band alone stands above the room, its echo and the room do not', () => {
  const above = aboveRoom()
  let last = 0
  for (let at = 0; at < 200; at++) last = above.push(frame(1, 1))
  expect(last).toBeLessThan(0.1)
  expect(above.push(frame(1, 1e6))).toBeGreaterThan(40)
  expect(above.push(frame(1, 1e5))).toBeGreaterThan(30)
  expect(above.push(frame(1, 1e3))).toBe(0)
})
