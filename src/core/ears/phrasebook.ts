/** The phrases of one operator in one language, each with what it sounds like. */
import type { EarModels } from './models.ts'
import { babbleOf, kitchens } from './noisy.ts'
import { likeness, sketchesAround, sketchOf } from './sketch.ts'
import { EMBEDDING_SIZE } from './sound.ts'
import { clipOf, framesIn, type Utterance } from './utterance.ts'

export interface Phrase {
  readonly words: string
  readonly sketches: readonly Float32Array[]
  /** Frames that the takes lasted on average. */
  readonly frames: number
  /** How alike other speech is to this phrase: mean and spread. */
  readonly others: { readonly mean: number; readonly spread: number }
}

export type Phrasebook = readonly Phrase[]

/** Embeddings of speech that is no command, one utterance an entry. */
export type OtherSpeech = readonly Float32Array[]

export interface Takes {
  readonly words: string
  readonly takes: readonly Utterance[]
}

/** Phrases without a take are left out. */
export async function phrasebookOf(
  practised: readonly Takes[],
  models: EarModels,
  others: OtherSpeech
): Promise<Phrasebook> {
  const { around } = kitchens(babbleOf(practised.flatMap(({ takes }) => takes)))
  const otherSketches = others.map(sketchesAround)
  const book: Phrase[] = []
  for (const { words, takes } of practised.filter((one) => one.takes.length > 0)) {
    const sketches: Float32Array[] = []
    for (const utterance of takes.flatMap(around)) sketches.push(middleSketch(await models.embed(clipOf(utterance))))
    const frames = takes.reduce((sum, take) => sum + framesIn(take), 0) / takes.length
    book.push(phraseOf(words, sketches, frames, otherSketches))
  }
  return book
}

/** Phrases that last about as long, so that one look does for all of them. */
const SAME_FRAMES = 8

export interface OneLength {
  readonly frames: number
  readonly phrases: Phrasebook
}

export function lengthsOf(phrases: Phrasebook): readonly OneLength[] {
  const rounded = (phrase: Phrase) => SAME_FRAMES * Math.round(phrase.frames / SAME_FRAMES)
  return [...new Set(phrases.map(rounded))].map((frames) => ({
    frames,
    phrases: phrases.filter((phrase) => rounded(phrase) === frames)
  }))
}

export function phraseOf(
  words: string,
  sketches: readonly Float32Array[],
  frames: number,
  others: readonly (readonly Float32Array[])[]
): Phrase {
  const scores = others.map((other) => closeness(other, sketches))
  const mean = scores.reduce((sum, score) => sum + score, 0) / Math.max(1, scores.length)
  const variance = scores.reduce((sum, score) => sum + (score - mean) ** 2, 0) / Math.max(1, scores.length)
  return { words, sketches, frames, others: { mean, spread: Math.max(1e-3, Math.sqrt(variance)) } }
}

/** Without the windows that are only there for looking to either side. */
export function middleSketch(embeddings: Float32Array): Float32Array {
  return sketchOf(embeddings.subarray(EMBEDDING_SIZE, embeddings.length - EMBEDDING_SIZE))
}

/** Mean of the two best likenesses to any take, for the best of the ways to cut the utterance. */
export function closeness(cuts: readonly Float32Array[], takes: readonly Float32Array[]): number {
  let best = -1
  for (const cut of cuts) {
    let [first, second] = [-1, -1]
    for (const take of takes) {
      const alike = likeness(cut, take)
      if (alike > first) [first, second] = [alike, first]
      else if (alike > second) second = alike
    }
    best = Math.max(best, (first + second) / 2)
  }
  return best
}
