/**
 * Listening where an attention word must come first: the word alone, then what may be said. The page goes on for eight
 * seconds after each command; here each needs the word again, so that every command tells of both.
 */
import type { Speaker } from '../../src/core/ears/listener.ts'
import type { Phrasebook } from '../../src/core/ears/phrasebook.ts'
import { SAMPLE_RATE } from '../../src/core/ears/sound.ts'
import type { Labelled } from './labelled.ts'

/** What is listened for from a place in the stream on, when that much was heard for certain. */
export type ListeningFor = (
  sample: number,
  heard: readonly string[]
) => { readonly valid: Phrasebook; readonly speaker: Speaker }

/** Until behind the command that follows in the stream. */
const OPEN_SAMPLES = 4 * SAMPLE_RATE

export function toAnybody(validAt: (sample: number) => Phrasebook): ListeningFor {
  return (sample) => ({ valid: validAt(sample), speaker: 'anybody' })
}

export function behindWord(word: string, book: Phrasebook, validAt: (sample: number) => Phrasebook): ListeningFor {
  const called = book.filter(({ words }) => words === word)
  let known = 0
  let openUntil = 0
  return (sample, heard) => {
    if (heard.length > known) openUntil = heard.at(-1) === word ? sample + OPEN_SAMPLES : 0
    known = heard.length
    return sample < openUntil
      ? { valid: [...validAt(sample).filter(({ words }) => words !== word), ...called], speaker: 'caller' }
      : { valid: called, speaker: 'whoever-calls' }
  }
}

/** One of the clips of the word before each of the others. */
export function wordFirst(word: string, clips: readonly Labelled[]): readonly Labelled[] {
  const called = clips.filter(({ label }) => label === word)
  const others = clips.filter(({ label }) => label !== word)
  return others.flatMap((clip, at) => {
    const first = called[at % called.length]
    return first ? [first, clip] : [clip]
  })
}
