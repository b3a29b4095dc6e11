/**
 * `npm run ears:starting`: the phrases of the vocabularies as synthetic voices say them, to starting-phrases.bin. No
 * voice of a final set is among them.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { babbleOf, kitchens } from '../../../src/core/ears/noisy.ts'
import { middleSketch, phraseOf, type Phrasebook } from '../../../src/core/ears/phrasebook.ts'
import { sketchesAround } from '../../../src/core/ears/sketch.ts'
import { packedPhrases } from '../../../src/core/ears/starting-phrases.ts'
import { clipOf, framesIn, type Utterance } from '../../../src/core/ears/utterance.ts'
import { seeded } from '../../helpers/seeded.ts'
import { grouped } from '../../helpers/grouped.ts'
import { earModels, otherSpeech, STARTING_FILE, takeOf } from '../ear-models.ts'
import { readAudio } from '../read-audio.ts'
import { STARTING } from './phrases.ts'
import { VOICES, type Voice } from './voices.ts'

/** Of the kitchens of a take, one voice after the other: alone, and in even noise. */
const KEPT_KITCHENS = [0, 3]

const spoken: readonly { readonly words: string; readonly voices: readonly Voice[] }[] = [
  ...STARTING.en.map((words) => ({
    words,
    voices: [...VOICES.background, ...VOICES.tuning, ...VOICES.starting]
  })),
  ...STARTING.es.map((words) => ({
    words,
    voices: [...VOICES.backgroundEs, ...VOICES.tuningEs, ...VOICES.startingEs]
  }))
]

const folder = mkdtempSync(join(tmpdir(), 'starting-'))
const models = await earModels()
const others = otherSpeech().map(sketchesAround)
const chance = seeded(12)

async function takesOf(words: string, voices: readonly Voice[]): Promise<readonly Utterance[]> {
  const takes: Utterance[] = []
  for (const voice of voices) {
    const file = join(folder, 'take.wav')
    voice.say(words, file, { pace: 0.9 + 0.25 * chance(), pitch: Math.round(-100 + 200 * chance()) })
    const take = await takeOf(await readAudio(file), models)
    if (take) takes.push(take)
  }
  return takes
}

const book: Phrasebook[number][] = []
// A word of both languages, as "no" is, is one phrase with the voices of both.
for (const [words, same] of grouped(spoken, (phrase) => phrase.words)) {
  const takes: Utterance[] = []
  for (const { voices } of same) takes.push(...(await takesOf(words, voices)))
  const { around } = kitchens(babbleOf(takes))
  const sketches: Float32Array[] = []
  for (const take of takes) {
    const heard = around(take)[KEPT_KITCHENS[sketches.length % KEPT_KITCHENS.length] ?? 0]
    if (heard) sketches.push(middleSketch(await models.embed(clipOf(heard))))
  }
  const frames = takes.reduce((sum, take) => sum + framesIn(take), 0) / takes.length
  book.push(phraseOf(words, sketches, frames, others))
}
rmSync(folder, { recursive: true })
const bytes = packedPhrases(book)
writeFileSync(STARTING_FILE, bytes)
console.log(`${book.length} phrases, ${bytes.length} bytes.`)
