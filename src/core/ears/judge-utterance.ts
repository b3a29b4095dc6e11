/** Which of the phrases that are valid now an utterance was, if any. */
import { closeness, type Phrase, type Phrasebook } from './phrasebook.ts'

export interface Candidate {
  readonly words: string
  /** Standard deviations closer than other speech is to that phrase. */
  readonly score: number
}

export interface Thresholds {
  /** Acted on. */
  readonly accept: number
  /** Asked about: "Did you say ...?" */
  readonly ask: number
  /** Decided before the silence behind it is over. */
  readonly sure: number
}

export const THRESHOLDS: Thresholds = { accept: 3.35, ask: 2.5, sure: 4 }

/** A phrase takes nobody half as long or twice as long as it did in practice. */
const LEAST_LENGTH = 0.5
const MOST_LENGTH = 1.9

/** Best first. `cuts` are the sketches of one utterance, `frames` its length. */
export function candidates(cuts: readonly Float32Array[], frames: number, valid: Phrasebook): readonly Candidate[] {
  return valid
    .filter((phrase) => frames >= LEAST_LENGTH * phrase.frames && frames <= MOST_LENGTH * phrase.frames)
    .map((phrase) => ({ words: phrase.words, score: scoreOf(cuts, phrase) }))
    .toSorted((one, other) => other.score - one.score)
}

function scoreOf(cuts: readonly Float32Array[], { sketches, others }: Phrase): number {
  return (closeness(cuts, sketches) - others.mean) / others.spread
}
