/**
 * `npm run ears:other-speech -- DIR`: everyday words by voices that are in no evaluation set go to DIR/background, and
 * what they sound like, alone and in noise, to public/ears/other-speech.bin. Each phrase is compared with these.
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { babbleOf, kitchens } from '../../../src/core/ears/noisy.ts'
import { packed } from '../../../src/core/ears/packed-embeddings.ts'
import { clipOf, type Utterance } from '../../../src/core/ears/utterance.ts'
import { seeded } from '../../helpers/seeded.ts'
import { earModels, OTHER_SPEECH_FILE, takeOf } from '../ear-models.ts'
import { readLabelled } from '../labelled.ts'
import { OTHER_WORDS } from './other-words.ts'
import { VOICES } from './voices.ts'

const USED = 180

const top = process.argv[2]
if (!top) throw new Error('Give the folder that the recordings go to.')
const folder = join(top, 'background')
mkdirSync(folder, { recursive: true })

const chance = seeded(77)
const rows = [...VOICES.background, ...VOICES.backgroundEs].flatMap((voice) =>
  OTHER_WORDS.map((text, at) => {
    const file = `${voice.name}-${at}.wav`
    voice.say(text, join(folder, file), { pace: 0.85 + 0.35 * chance(), pitch: Math.round(-200 + 400 * chance()) })
    return `${file},-,${voice.name},1`
  })
)
writeFileSync(join(folder, 'labels.csv'), `file,label,speaker,take\n${rows.join('\n')}\n`)

const models = await earModels()
const utterances: Utterance[] = []
for (const { samples } of await readLabelled(folder)) {
  const utterance = await takeOf(samples, models)
  if (utterance) utterances.push(utterance)
}
const { around } = kitchens(babbleOf(utterances))
const chosen = Array.from({ length: USED }, (_, at) => Math.floor((at * utterances.length) / USED))
const embeddings: Float32Array[] = []
for (const [turn, at] of chosen.entries()) {
  const utterance = utterances[at]
  const kitchen = utterance ? around(utterance) : []
  const heard = kitchen[turn % kitchen.length]
  if (heard) embeddings.push(await models.embed(clipOf(heard)))
}
const bytes = packed(embeddings)
mkdirSync(new URL('.', OTHER_SPEECH_FILE), { recursive: true })
writeFileSync(OTHER_SPEECH_FILE, bytes)
console.log(`${embeddings.length} utterances, ${bytes.length} bytes.`)
