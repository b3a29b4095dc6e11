/**
 * How far each frame stands out of what the room has sounded like lately. Measured band by band against the median of
 * the last seconds, so a loud fan counts for nothing and neither does a hall of voices; then against the usual
 * prominence itself, because babble stands out of its own median all the time.
 */
import { history } from './history.ts'
import { percentile } from './percentile.ts'
import { BANDS } from './sound.ts'

const FIRST_BAND = 4
const COUNTED_BANDS = BANDS - FIRST_BAND
const FLOOR_FRAMES = 300
const USUAL_FRAMES = 400
/** Medians move slowly: working them out every tenth frame is enough. */
const RENEWED_EVERY = 10
const SMOOTHED_FRAMES = 5
/** In a silent room the end of a word fades for ever: what is this far below the loudest speech of the last second is over, dB. */
const RANGE_DB = 30
/** What tells speech from the rumble of a fan, which may be louder, dB. */
const SPEECH_DB = 10
const LOUDEST_FRAMES = 100
const MOST_DB = 20
const LEAST_POWER = 1e-3
const NO_LEVEL_DB = -100

export interface Prominence {
  /** The powers of a frame; gives dB above what is usual, on average over the bands of speech. */
  push(frame: Float32Array): number
}

export function prominence(): Prominence {
  const floors = Array.from({ length: COUNTED_BANDS }, () => history(FLOOR_FRAMES))
  const usuals = history(USUAL_FRAMES)
  const loudest = history(LOUDEST_FRAMES)
  const lately: Float32Array[] = []
  let floor: readonly number[] = []
  let usual = 0
  let count = 0

  return {
    push(frame) {
      lately.push(frame.slice(FIRST_BAND))
      if (lately.length > SMOOTHED_FRAMES) lately.shift()
      const levels = Float32Array.from({ length: COUNTED_BANDS }, (_, band) => {
        const sum = lately.reduce((total, one) => total + (one[band] ?? 0), 0)
        return 10 * Math.log10(sum / lately.length + LEAST_POWER)
      })
      levels.forEach((level, band) => floors[band]?.push(level))
      if (count % RENEWED_EVERY === 0) floor = floors.map((band) => percentile(band.values(), 0.5))
      loudest.push(Math.max(NO_LEVEL_DB, ...levels.filter((level, band) => level > (floor[band] ?? 0) + SPEECH_DB)))
      const least = Math.max(...loudest.values()) - RANGE_DB
      const above = levels.reduce(
        (sum, level, band) => sum + Math.min(MOST_DB, Math.max(0, level - Math.max(least, floor[band] ?? 0))),
        0
      )
      const found = above / COUNTED_BANDS
      usuals.push(found)
      if (count % RENEWED_EVERY === 0) usual = percentile(usuals.values(), 0.5)
      count += 1
      return found - usual
    }
  }
}
