/**
 * `npm run ears:sets -- DIR [tuning|final]`: evaluation sets from synthetic voices, as folders of WAV files with a labels.csv.
 * `enrol` has takes 1 to 3, `clips` takes 4 to 6: other pace, pitch and level, as somebody speaks another time.
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { seeded, type Chance } from '../../helpers/seeded.ts'
import { PHRASES } from './phrases.ts'
import { VOICES, type Voice } from './voices.ts'

const ENROL_TAKES = [1, 2, 3]
const CLIP_TAKES = [4, 5, 6]

/** So that no set repeats the pace and pitch of another. */
const GROUPS = { tuning: 0, final: 200 } as const

const [top, wanted] = process.argv.slice(2)
if (!top) throw new Error('Give the folder that the sets go to.')

function howOfTake(chance: Chance) {
  return { pace: 0.88 + 0.3 * chance(), pitch: Math.round(-120 + 240 * chance()) }
}

interface SetOf {
  readonly voices: readonly Voice[]
  readonly phrases: readonly string[]
  readonly seed: number
}

function makeSet(folder: string, { voices, phrases, seed }: SetOf, takes: readonly number[]): void {
  mkdirSync(folder, { recursive: true })
  const rows = ['file,label,speaker,take']
  const chance = seeded(seed + (takes[0] ?? 0))
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

for (const [group, seed] of Object.entries(GROUPS) as readonly [keyof typeof GROUPS, number][]) {
  if (wanted !== undefined && wanted !== group) continue
  const sets = [
    ...Object.entries(PHRASES.en).map(([name, phrases]) => ({ name, phrases, voices: VOICES[group] })),
    { name: 'two-es', phrases: PHRASES.es.two, voices: VOICES[`${group}Es`] }
  ]
  for (const { name, phrases, voices } of sets) {
    makeSet(join(top, group, name, 'enrol'), { voices, phrases, seed }, ENROL_TAKES)
    makeSet(join(top, group, name, 'clips'), { voices, phrases, seed }, CLIP_TAKES)
  }
}
