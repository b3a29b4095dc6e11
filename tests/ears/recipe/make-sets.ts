/**
 * `npm run ears:sets -- DIR`: evaluation sets from synthetic voices, as folders of WAV files with a labels.csv.
 * `enrol` has takes 1 to 3, `clips` takes 4 to 6: other pace, pitch and level, as somebody speaks another time.
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { seeded, type Chance } from '../../helpers/seeded.ts'
import { PHRASES } from './phrases.ts'
import { VOICES, type Voice } from './voices.ts'

const ENROL_TAKES = [1, 2, 3]
const CLIP_TAKES = [4, 5, 6]

const top = process.argv[2]
if (!top) throw new Error('Give the folder that the sets go to.')

function howOfTake(chance: Chance) {
  return { pace: 0.88 + 0.3 * chance(), pitch: Math.round(-120 + 240 * chance()) }
}

function makeSet(folder: string, voices: readonly Voice[], phrases: readonly string[], takes: readonly number[]): void {
  mkdirSync(folder, { recursive: true })
  const rows = ['file,label,speaker,take']
  const chance = seeded(takes[0] ?? 0)
  for (const voice of voices) {
    for (const phrase of phrases) {
      for (const take of takes) {
        const file = `${voice.name}-${phrase.replaceAll(' ', '_')}-${take}.wav`
        voice.say(phrase, join(folder, file), howOfTake(chance))
        rows.push(`${file},${phrase},${voice.name},${take}`)
      }
    }
  }
  writeFileSync(join(folder, 'labels.csv'), `${rows.join('\n')}\n`)
}

for (const group of ['tuning', 'final'] as const) {
  for (const [name, phrases] of Object.entries(PHRASES.en)) {
    makeSet(join(top, group, name, 'enrol'), VOICES[group], phrases, ENROL_TAKES)
    makeSet(join(top, group, name, 'clips'), VOICES[group], phrases, CLIP_TAKES)
  }
  const voices = VOICES[`${group}Es`]
  makeSet(join(top, group, 'two-es', 'enrol'), voices, PHRASES.es.two, ENROL_TAKES)
  makeSet(join(top, group, 'two-es', 'clips'), voices, PHRASES.es.two, CLIP_TAKES)
}
