/** Takes a spoken practice take out of a stream and says what is wrong with it. */
import type { EarModels } from './models.ts'
import { FRAME_MS } from './sound.ts'
import { utteranceFinder } from './utterance-finder.ts'
import { framesIn, loudness, type Utterance } from './utterance.ts'

export type TakeFault = 'clipped' | 'too-quiet' | 'too-short' | 'too-long'

export interface HeardTake {
  readonly utterance: Utterance
  readonly fault: TakeFault | null
}

export interface Practice {
  /** Samples at 16 kHz; gives a take once it has ended. */
  push(samples: Float32Array): Promise<HeardTake | null>
}

/** Of each phrase; the newest count: somebody who practises again wants to be rid of the old ones. */
export const TAKES = 3

const FULL_SCALE = 0.985
/** One sample at the limit is chance, several are a voice that is too loud. */
const CLIPPED_SAMPLES = 4
const LEAST_ABOVE_ROOM_DB = 6
const SHORTEST_FRAMES = 150 / FRAME_MS
const LONGEST_FRAMES = 1600 / FRAME_MS

export function practice(models: EarModels): Practice {
  const finder = utteranceFinder(models)
  let clipped = 0
  return {
    async push(samples) {
      for (const sample of samples) if (Math.abs(sample) >= FULL_SCALE) clipped += 1
      let heard: HeardTake | null = null
      await finder.push(samples, async (hearing) => {
        if (hearing.kind !== 'ended') return
        const utterance = finder.utterance(hearing.segment)
        if (!utterance) return
        heard = { utterance, fault: faultOf(utterance, clipped) }
        clipped = 0
      })
      return heard
    }
  }
}

function faultOf(utterance: Utterance, clipped: number): TakeFault | null {
  if (clipped >= CLIPPED_SAMPLES) return 'clipped'
  if (10 * Math.log10(loudness(utterance.speech) / Math.max(1e-9, loudness(utterance.room))) < LEAST_ABOVE_ROOM_DB) {
    return 'too-quiet'
  }
  if (framesIn(utterance) < SHORTEST_FRAMES) return 'too-short'
  return framesIn(utterance) > LONGEST_FRAMES ? 'too-long' : null
}
