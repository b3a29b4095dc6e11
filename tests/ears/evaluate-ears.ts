/**
 * `npm run eval:ears -- --clips DIR [--enrol DIR] [--lang en|es] [--active N] [--snr LIST] [--noise DIR] [--alone SECONDS] [--seed N] [--attention WORD] [--json]`:
 * how well the embedded ears hear a folder of recordings. It runs the very code that the page runs. With an
 * attention word, which must be among the clips, it comes before each command, and nothing counts without.
 */
import { grouped } from '../helpers/grouped.ts'
import { behindWord, toAnybody, wordFirst } from './behind-word.ts'
import { OTHER, readLabelled, type Labelled } from './labelled.ts'
import { conditionsOf, noisesFrom, type Condition, type Noise } from './conditions.ts'
import { earModels } from './ear-models.ts'
import { listenThrough, streamOf } from './listen-through.ts'
import { printJson, printTable, type Row, type RowKind } from './evaluation-report.ts'
import { phrasebooksOf } from './phrasebooks.ts'
import { tallyOf } from './tally.ts'
import { BadInput, readOptions } from '../sanitizer/options.ts'
import { seeded } from '../helpers/seeded.ts'
import { SAMPLE_RATE } from '../../src/core/ears/sound.ts'
import type { Phrasebook } from '../../src/core/ears/phrasebook.ts'

/** Of pauses, noises, and which other phrases are valid. */
const USUAL_SEED = 4
const ALONE_SECONDS = 300

async function main(args: readonly string[]): Promise<void> {
  const options = readOptions(
    args,
    ['clips', 'enrol', 'lang', 'active', 'snr', 'noise', 'alone', 'seed', 'attention'],
    ['json']
  )
  const folder = options.text('clips')
  if (folder === undefined) throw new BadInput('clips', '--clips needs the folder with labels.csv.')
  const language = options.oneOf('lang', ['en', 'es']) ?? 'en'
  const active = options.number('active', { above: 0 }) ?? 5
  const aloneSeconds = options.number('alone') ?? ALONE_SECONDS
  const seed = options.number('seed') ?? USUAL_SEED
  const word = options.text('attention')
  const ratios = ratiosIn(options.text('snr') ?? '20,10,5')

  const clips = await readLabelled(folder)
  const enrol = options.text('enrol')
  const enrolled = enrol === undefined ? [] : (await readLabelled(enrol)).filter(({ label }) => label !== OTHER)
  const noises = await noisesFrom(options.text('noise'), clips, seed)
  const models = await earModels()
  const bookOf = await phrasebooksOf(enrolled, language, models, warn)
  const commands = grouped(
    clips.filter(({ label }) => label !== OTHER),
    ({ speaker }) => speaker
  )
  const others = grouped(
    clips.filter(({ label }) => label === OTHER),
    ({ speaker }) => speaker
  )
  const speakers = commands.size > 0 ? [...commands.keys()] : [...new Set(enrolled.map(({ speaker }) => speaker)), '']
  const labels = [...new Set([...commands.values()].flat().map(({ label }) => label))].filter((one) => one !== word)
  warnOfUnknown(commands, bookOf)

  const rows: Row[] = []
  const listen = async (
    kind: RowKind,
    condition: Condition,
    speaker: string,
    { samples, spoken }: ReturnType<typeof streamOf>,
    validAt: (sample: number) => Phrasebook
  ) => {
    const listeningFor = word === undefined ? toAnybody(validAt) : behindWord(word, bookOf(speaker), validAt)
    const { heard, hopsMs } = await listenThrough(samples, listeningFor, models)
    rows.push({ kind, condition, speaker, hopsMs, tally: tallyOf(spoken, heard, samples.length) })
  }
  /** A share of the sound for each operator who might be listened to. */
  const anybody = (samples: Float32Array) => {
    const books = speakers.map((speaker) => among(bookOf(speaker), '', labels, active, seed))
    return (at: number) => books[Math.floor((at * books.length) / samples.length)] ?? []
  }

  for (const condition of conditionsOf(noises, ratios)) {
    for (const [speaker, own] of commands) {
      const stream = streamOf(word === undefined ? own : wordFirst(word, own), condition, seed)
      const book = bookOf(speaker)
      const turns = stream.spoken.map(({ label, end }, at) => ({
        end,
        book: among(book, label, labels, active, seed + at)
      }))
      await listen('commands', condition, speaker, stream, (sample) => {
        const turn = turns.find(({ end }) => sample < end + SAMPLE_RATE) ?? turns.at(-1)
        return turn?.book ?? []
      })
    }
    for (const [speaker, own] of others) {
      const stream = streamOf(own, condition, seed)
      await listen('other', condition, speaker, { ...stream, spoken: [] }, anybody(stream.samples))
    }
  }
  for (const noise of aloneSeconds > 0 ? noises : []) {
    const samples = aloneFor(noise, aloneSeconds)
    await listen('noise', { noise, snr: null }, '', { samples, spoken: [] }, anybody(samples))
  }
  if (options.has('json')) printJson(rows)
  else printTable(rows)
}

function ratiosIn(list: string): readonly number[] {
  return list
    .split(',')
    .map((text) => text.trim())
    .filter((text) => text !== '')
    .map((text) => {
      const snr = Number(text)
      if (!Number.isFinite(snr)) throw new BadInput('snr', `--snr: "${text}" is no number of dB.`)
      return snr
    })
}

function aloneFor(noise: Noise, seconds: number): Float32Array {
  const made = noise.alone(seconds)
  return Float32Array.from(
    { length: Math.round(seconds * SAMPLE_RATE) },
    (_, at) => 0.3 * (made[at % made.length] ?? 0)
  )
}

/** The phrase that is said and so many others that could be said instead: of this folder, then what else is known. */
function among(book: Phrasebook, label: string, labels: readonly string[], active: number, turn: number): Phrasebook {
  const chance = seeded(turn)
  const shuffled = (all: readonly string[]) =>
    all
      .map((one) => ({ one, order: chance() }))
      .toSorted((a, b) => a.order - b.order)
      .map(({ one }) => one)
  const known = book.map(({ words }) => words)
  const rest = known.filter((words) => !labels.includes(words))
  const others = [...shuffled(labels.filter((one) => one !== label && known.includes(one))), ...shuffled(rest)]
  const valid = new Set([label, ...others.slice(0, label === '' ? active : active - 1)])
  return book.filter(({ words }) => valid.has(words))
}

function warnOfUnknown(commands: ReadonlyMap<string, readonly Labelled[]>, bookOf: (speaker: string) => Phrasebook) {
  for (const [speaker, own] of commands) {
    const known = new Set(bookOf(speaker).map(({ words }) => words))
    const unknown = new Set(own.map(({ label }) => label).filter((label) => !known.has(label)))
    if (unknown.size === 0) continue
    warn(`${speaker}: neither practised nor among the starting phrases, so missed: ${[...unknown].join(', ')}`)
  }
}

function warn(words: string): void {
  console.error(words)
}

try {
  await main(process.argv.slice(2))
} catch (failure) {
  if (!(failure instanceof Error)) throw failure
  console.error(failure.message)
  process.exitCode = 2
}
