/** Phrases as practised by the speakers of a folder, or the starting ones of a language. */
import { grouped } from '../helpers/grouped.ts'
import type { EarModels } from '../../src/core/ears/models.ts'
import { phrasebookOf, type Phrasebook } from '../../src/core/ears/phrasebook.ts'
import { startingBook } from '../../src/core/ears/starting-phrases.ts'
import type { Utterance } from '../../src/core/ears/utterance.ts'
import { otherSpeech, startingPhrases, takeOf } from './ear-models.ts'
import type { Labelled } from './labelled.ts'

/** @throws Error when nobody practised: there are no starting phrases in this language. */
export async function phrasebooksOf(
  enrolled: readonly Labelled[] | null,
  language: 'en' | 'es',
  models: EarModels
): Promise<(speaker: string) => Phrasebook> {
  const others = otherSpeech()
  if (!enrolled) {
    if (language !== 'en') throw new Error(`There are no starting phrases for "${language}": give --enrol.`)
    const starting = startingBook(startingPhrases(), others)
    return () => starting
  }
  const books = new Map<string, Phrasebook>()
  for (const [speaker, own] of grouped(enrolled, (clip) => clip.speaker)) {
    const practised: { words: string; takes: Utterance[] }[] = []
    for (const [words, clips] of grouped(own, (clip) => clip.label)) {
      const takes: Utterance[] = []
      for (const { samples } of clips) {
        const take = await takeOf(samples, models)
        if (take) takes.push(take)
      }
      practised.push({ words, takes })
    }
    books.set(speaker, await phrasebookOf(practised, models, others))
  }
  return (speaker) => books.get(speaker) ?? []
}
