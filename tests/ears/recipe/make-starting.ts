/**
 * `npm run ears:starting`: the phrases of the vocabulary as synthetic voices say them, alone and in noise, to
 * public/ears/starting-en.bin. No voice of a final set is among them.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { babbleOf, kitchens } from '../../../src/core/ears/noisy.ts'
import { packedPhrases, type StartingPhrase } from '../../../src/core/ears/starting-phrases.ts'
import { clipOf, framesIn, type Utterance } from '../../../src/core/ears/utterance.ts'
import { spokenPhrases } from '../../../src/core/talk/spoken-phrases.ts'
import { vocabularyEn } from '../../../src/core/talk/vocabulary.en.ts'
import { seeded } from '../../helpers/seeded.ts'
import { earModels, STARTING_FILE, takeOf } from '../ear-models.ts'
import { readAudio } from '../read-audio.ts'
import { VOICES } from './voices.ts'

/** Of the kitchens of a take, one voice after the other: alone, and in even noise. */
const KEPT_KITCHENS = [0, 3]

const folder = mkdtempSync(join(tmpdir(), 'starting-'))
const models = await earModels()
const chance = seeded(12)
const phrases: StartingPhrase[] = []
for (const words of spokenPhrases(vocabularyEn)) {
  const takes: Utterance[] = []
  for (const voice of [...VOICES.background, ...VOICES.tuning]) {
    const file = join(folder, 'take.wav')
    voice.say(words, file, { pace: 0.9 + 0.25 * chance(), pitch: Math.round(-100 + 200 * chance()) })
    const take = await takeOf(await readAudio(file), models)
    if (take) takes.push(take)
  }
  const { around } = kitchens(babbleOf(takes))
  const embeddings: Float32Array[] = []
  for (const take of takes) {
    const kitchen = around(take)[KEPT_KITCHENS[embeddings.length % KEPT_KITCHENS.length] ?? 0]
    if (kitchen) embeddings.push(await models.embed(clipOf(kitchen)))
  }
  const frames = takes.reduce((sum, take) => sum + framesIn(take), 0) / takes.length
  phrases.push({ words, frames, takes: embeddings })
}
rmSync(folder, { recursive: true })
const bytes = packedPhrases(phrases)
writeFileSync(STARTING_FILE, bytes)
console.log(`${phrases.length} phrases, ${bytes.length} bytes.`)
