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

/**
 * Where others talk, an operator is heard only when more certain: among 1,088 utterances of actors the best was at 3.8. To
 * leave everything out there made the ears deaf in babble (three voices at 10 dB: 20 % came through, now 44).
 */
const IN_TALK_MORE = 1

/** For what comes out of a stretch of talking. */
export function inTalk(thresholds: Thresholds): Thresholds {
  return raised(thresholds, IN_TALK_MORE)
}

/**
 * For the attention word, where it alone is listened for: nothing is done by it, and the next words are asked for more. It
 * is the call that other voices drown, not what follows.
 */
export const CALLING: Thresholds = { accept: 2.75, ask: 2.5, sure: 4 }

/**
 * For an operator who has just said the attention word: that many false ones come only from that near. Lower, and wrong
 * commands begin to come (2 in 90 in babble at 5 dB with 2.25).
 */
export const CALLED: Thresholds = { accept: 2.5, ask: 2, sure: 4 }

/** Two utterances as one are one more chance to be taken for a phrase: on 2.5 h of dialogue 3 false against 2 without this. */
const JOINED_MORE = 0.5

/** For two utterances that may be the parts of one phrase. */
export function inParts(thresholds: Thresholds): Thresholds {
  return raised(thresholds, JOINED_MORE)
}

function raised({ accept, ask, sure }: Thresholds, by: number): Thresholds {
  return { accept: accept + by, ask: ask + by, sure: sure + by }
}

/**
 * One word alone is far easier to hear in other talk (18 an hour of dialogue against none, five valid): it has to be
 * so much more certain, else it gets a question.
 */
const ONE_WORD_MORE = 0.8

export type Certainty = 'early' | 'sure' | 'unsure' | 'unknown'

/** How far the best candidate is to be trusted. */
export function certaintyOf(best: Candidate | undefined, { accept, ask, sure }: Thresholds): Certainty {
  if (!best || best.score < ask) return 'unknown'
  const more = best.words.includes(' ') ? 0 : ONE_WORD_MORE
  if (best.score >= sure + more) return 'early'
  return best.score >= accept + more ? 'sure' : 'unsure'
}

/** A phrase takes nobody half as long or twice as long as it did in practice. */
const LEAST_LENGTH = 0.5
export const MOST_LENGTH = 1.9

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
