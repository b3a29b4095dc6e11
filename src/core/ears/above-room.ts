/**
 * How far a frame's whole power lies above what the room has been like. A clear voice has all its power in few bands at
 * times (the "ea" of "repeat"), which `prominence`, an average over bands, takes for nearly nothing.
 */
import { history } from './history.ts'
import { percentile } from './percentile.ts'
import { BANDS } from './sound.ts'

const FIRST_BAND = 4
const ROOM_FRAMES = 300
const LOUDEST_FRAMES = 100
const RENEWED_EVERY = 10
/** Below the loudest of the last second, dB: the echo of a word is not the word. */
const RANGE_DB = 24
const LEAST_POWER = 1e-3

export interface AboveRoom {
  /** The powers of a frame; gives dB, 0 for what is no louder than the room or far below the loudest moment. */
  push(frame: Float32Array): number
}

export function aboveRoom(): AboveRoom {
  const levels = history(ROOM_FRAMES)
  const loudest = history(LOUDEST_FRAMES)
  let room = 0
  let count = 0
  return {
    push(frame) {
      const level = 10 * Math.log10(frame.subarray(FIRST_BAND, BANDS).reduce((sum, power) => sum + power, LEAST_POWER))
      levels.push(level)
      loudest.push(level)
      if (count % RENEWED_EVERY === 0) room = percentile(levels.values(), 0.5)
      count += 1
      return level < Math.max(...loudest.values()) - RANGE_DB ? 0 : Math.max(0, level - room)
    }
  }
}
