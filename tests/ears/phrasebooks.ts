/** What the page would listen for: phrases as practised by the speakers of a folder, the starting ones for the others. */
import { grouped } from '../helpers/grouped.ts'
import type { EarModels } from '../../src/core/ears/models.ts'
import { phrasebookOf, type Phrasebook } from '../../src/core/ears/phrasebook.ts'
import { TAKES } from '../../src/core/ears/practice.ts'
import type { Utterance } from '../../src/core/ears/utterance.ts'
import { otherSpeech, startingPhrases, takeOf } from './ear-models.ts'
import type { Labelled } from './labelled.ts'
import { STARTING } from './recipe/phrases.ts'

export async function phrasebooksOf(
  enrolled: readonly Labelled[],
  language: 'en' | 'es',
  models: EarModels,
  warn: (words: string) => void
): Promise<(speaker: string) => Phrasebook> {
  const others = otherSpeech()
  const spoken: readonly string[] = STARTING[language]
  const starting = startingPhrases().filter(({ words }) => spoken.includes(words))
  const books = new Map<string, Phrasebook>()
  for (const [speaker, own] of grouped(enrolled, (clip) => clip.speaker)) {
    const practised: { words: string; takes: Utterance[] }[] = []
    for (const [words, clips] of grouped(own, (clip) => clip.label)) {
      const takes: Utterance[] = []
      for (const { file, samples } of clips.slice(-TAKES)) {
        const take = await takeOf(samples, models)
        if (take) takes.push(take)
        else warn(`${file}: nobody was heard in this take, so it is left out.`)
      }
      practised.push({ words, takes })
    }
    const book = await phrasebookOf(practised, models, others)
    const known = new Set(book.map(({ words }) => words))
    books.set(speaker, [...book, ...starting.filter(({ words }) => !known.has(words))])
  }
  return (speaker) => books.get(speaker) ?? starting
}
