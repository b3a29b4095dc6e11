/**
 * How well the rendered voice is understood: `npm run eval:mouth [-- --every 5] [-- --json]`. Every sentence of every shipped
 * procedure is rendered and measured; each `every`th is given to an independent recogniser, clean and in noise. Two controls
 * must fail: noise alone, and a sentence taken for another.
 */
import { openRenderer } from '../../server/speech/render-clip.ts'
import { layOut } from '../../src/core/procedure/course.ts'
import { coverWithClips, knownClips } from '../../src/core/talk/clips/cover.ts'
import { unpackWav } from '../../src/core/talk/clips/ima-adpcm.ts'
import { sayable } from '../../src/core/talk/clips/sayable.ts'
import { speakableEn } from '../../src/core/talk/spoken/english.ts'
import { wordsEn } from '../../src/core/talk/words.en.ts'
import { seeded } from '../helpers/seeded.ts'
import { SHIPPED_WITH_RULES } from '../procedures/shipped-files.ts'
import { composedLines } from './composed-lines.ts'
import { inNoise, speechLevel } from './noise.ts'
import { dictionary, recognised } from './recogniser.ts'
import { wordErrors } from './word-errors.ts'

const RATE = 16_000
const GATES = { clean: 3, noisy: 10 }
const NOISE_DECIBELS = 10

interface Rendered {
  readonly text: string
  readonly words: readonly string[]
  readonly pcm: Int16Array
  readonly bytes: number
}

const asJson = process.argv.includes('--json')
const every = Number(process.argv[process.argv.indexOf('--every') + 1]) || 1
const render = await openRenderer()
const rendered = new Map<string, Rendered>()
const failed: string[] = []
let renderMs = 0

async function clip(text: string): Promise<void> {
  if (rendered.has(text)) return
  const began = performance.now()
  const made = await render(text)
  renderMs += performance.now() - began
  const pcm = made && unpackWav(made.bytes)?.pcm
  if (!made || !pcm) return void failed.push(text)
  rendered.set(text, { text, words: wordsOf(text), pcm: Int16Array.from(pcm), bytes: made.bytes.length })
}

function wordsOf(text: string): readonly string[] {
  return text.toLowerCase().match(/[a-z]+(?:'[a-z]+)*/g) ?? []
}

const procedures: { name: string; sentences: number; seconds: number; bytes: number; sharedBytes: number }[] = []
for (const { name, procedure } of SHIPPED_WITH_RULES) {
  const { own, shared } = sayable(layOut(procedure), { language: 'en', words: wordsEn }, speakableEn)
  for (const text of [...own, ...shared]) await clip(text)
  const bytes = (texts: readonly string[]) => sum(texts.map((text) => rendered.get(text)?.bytes ?? 0))
  procedures.push({
    name,
    sentences: own.length,
    seconds: Math.round(sum(own.map((text) => (rendered.get(text)?.pcm.length ?? 0) / RATE))),
    bytes: bytes(own),
    sharedBytes: bytes(shared)
  })
}

const all = [...rendered.values()]
const sentences = all.filter(({ words }) => words.length >= 3)
const known = dictionary()
const unknown = new Set(sentences.flatMap(({ words }) => words.filter((word) => !known.has(word))))
const judged = sentences.filter(({ words }, index) => index % every === 0 && words.every((word) => known.has(word)))
const composed = composedLines().flatMap((text) => {
  const pieces = coverWithClips(text, knownClips(all.map((one) => [one.text, one] as const)))
  const pause = { none: 0, short: 1920, long: 4800 }
  const parts = pieces?.map((piece) => [...piece.clip.pcm, ...new Int16Array(pause[piece.pause])]) ?? []
  return parts.length === 0 ? [] : [{ text, words: wordsOf(text), pcm: Int16Array.from(parts.flat()), bytes: 0 }]
})
const model = [...sentences, ...composed]
  .map(({ words }) => words)
  .filter((words) => words.every((word) => known.has(word)))

function errorRate(said: readonly Rendered[], heard: readonly (readonly string[])[]): number {
  const errors = sum(said.map(({ words }, index) => wordErrors(words, heard[index] ?? [])))
  return round((100 * errors) / sum(said.map(({ words }) => words.length)))
}

const hear = (said: readonly Rendered[], decibels: number | null) => {
  const chance = seeded(1)
  return recognised(
    said.map(({ pcm }) => inNoise(pcm, decibels, chance)),
    model
  )
}
const clean = hear(judged, null)
const noisy = hear(judged, NOISE_DECIBELS)
const noiseOnly = recognised(
  judged.slice(0, 40).map(({ pcm }) =>
    inNoise(
      pcm.map((_, index) => (index === 0 ? 300 : 0)),
      -20,
      seeded(2)
    )
  ),
  model
)
const levels = all.map(({ pcm }) => 20 * Math.log10(speechLevel(pcm)))
const speechSeconds = sum(all.map(({ pcm }) => pcm.length / RATE))
const long = sentences.filter(({ words }) => words.length >= 6)

const figures = {
  sentences: all.length,
  notRendered: failed.length,
  speechMinutes: round(speechSeconds / 60),
  renderSecondsPerMinute: round(renderMs / 1000 / (speechSeconds / 60)),
  wordsPerMinute: Math.round(
    sum(long.map(({ words }) => words.length)) / (sum(long.map(({ pcm }) => pcm.length / RATE)) / 60)
  ),
  levelLowest: round(Math.min(...levels)),
  levelHighest: round(Math.max(...levels)),
  clippedSamples: sum(all.map(({ pcm }) => pcm.filter((value) => Math.abs(value) >= 32_767).length)),
  judged: judged.length,
  unknownWords: unknown.size,
  wordErrorClean: errorRate(judged, clean),
  wordErrorNoisy: errorRate(judged, noisy),
  composedErrorClean: errorRate(composed, hear(composed, null)),
  composedErrorNoisy: errorRate(composed, hear(composed, NOISE_DECIBELS)),
  controlNoiseAlone: errorRate(judged.slice(0, 40), noiseOnly),
  controlWrongSentence: errorRate(judged, [...clean.slice(1), ...clean.slice(0, 1)])
}

if (asJson) console.log(JSON.stringify({ figures, procedures, gates: GATES }, null, 2))
else {
  console.table(procedures)
  console.table(figures)
  for (const [index, one] of judged.entries()) {
    const heard = noisy[index] ?? []
    if (wordErrors(one.words, heard) > 2) console.log(`in noise: "${one.text}" heard as "${heard.join(' ')}"`)
  }
}
const good =
  figures.wordErrorClean <= GATES.clean &&
  figures.wordErrorNoisy <= GATES.noisy &&
  figures.controlNoiseAlone > 80 &&
  figures.controlWrongSentence > 80 &&
  figures.clippedSamples === 0 &&
  figures.unknownWords === 0
if (unknown.size > 0) console.error(`Say in more-words.ts how these are said: ${[...unknown].join(', ')}.`)
if (!good) process.exitCode = 1

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0)
}

function round(value: number): number {
  return Math.round(value * 100) / 100
}
