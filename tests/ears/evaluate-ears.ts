/**
 * `npm run eval:ears -- --clips DIR [--enrol DIR] [--lang en|es] [--active N] [--snr LIST] [--noise DIR] [--alone SECONDS] [--json]`:
 * how well the embedded ears hear a folder of recordings. It runs the very code that the page runs.
 */
import { grouped } from '../helpers/grouped.ts'
import { OTHER, readLabelled, type Labelled } from './labelled.ts'
import { conditionsOf, noisesFrom, type Condition } from './conditions.ts'
import { earModels } from './ear-models.ts'
import { listenThrough, streamOf } from './listen-through.ts'
import { printJson, printTable, type Row } from './evaluation-report.ts'
import { phrasebooksOf } from './phrasebooks.ts'
import { tallyOf } from './tally.ts'
import { BadInput, readOptions } from '../sanitizer/options.ts'
import { seeded } from '../helpers/seeded.ts'
import { SAMPLE_RATE } from '../../src/core/ears/sound.ts'
import type { Phrasebook } from '../../src/core/ears/phrasebook.ts'

const SEED = 4
const ALONE_SECONDS = 300

async function main(args: readonly string[]): Promise<void> {
  const options = readOptions(args, ['clips', 'enrol', 'lang', 'active', 'snr', 'noise', 'alone'], ['json'])
  const folder = options.text('clips')
  if (folder === undefined) throw new BadInput('clips', '--clips needs the folder with labels.csv.')
  const language = options.oneOf('lang', ['en', 'es']) ?? 'en'
  const active = options.number('active', { above: 0 }) ?? 5
  const aloneSeconds = options.number('alone') ?? ALONE_SECONDS
  const ratios = (options.text('snr') ?? '20,10,5').split(',').map((text) => {
    const snr = Number(text)
    if (text.trim() === '' || !Number.isFinite(snr)) throw new BadInput('snr', `--snr: "${text}" is no number of dB.`)
    return snr
  })

  const clips = await readLabelled(folder)
  const models = await earModels()
  const enrol = options.text('enrol')
  const bookOf = await phrasebooksOf(enrol === undefined ? null : await readLabelled(enrol), language, models)
  const conditions = conditionsOf(await noisesFrom(options.text('noise'), clips, SEED), ratios)
  const commands = clips.filter(({ label }) => label !== OTHER)
  const recordings = clips.filter(({ label }) => label === OTHER)
  const labels = [...new Set(commands.map(({ label }) => label))]

  const rows: Row[] = []
  for (const condition of conditions) {
    for (const [speaker, own] of grouped(commands, (clip) => clip.speaker)) {
      const book = bookOf(speaker)
      const { samples, spoken } = streamOf(own, condition, SEED)
      const valid = spoken.map(({ label, end }, at) => ({ end, book: among(book, label, labels, active, at) }))
      const validAt = (sample: number) =>
        (valid.find(({ end }) => sample < end + SAMPLE_RATE) ?? valid.at(-1))?.book ?? []
      rows.push({
        condition,
        speaker,
        tally: tallyOf(spoken, await listenThrough(samples, validAt, models), samples.length)
      })
    }
    rows.push(
      ...(await othersUnder(condition, recordings, commands, (speaker) =>
        among(bookOf(speaker), '', labels, active, 0)
      ))
    )
  }
  if (options.has('json')) printJson(rows)
  else printTable(rows)

  /** Long recordings, and the noise with nobody speaking: each command heard there is a false one. */
  async function othersUnder(
    condition: Condition,
    long: readonly Labelled[],
    said: readonly Labelled[],
    validFor: (speaker: string) => Phrasebook
  ): Promise<readonly Row[]> {
    const speakers = [...new Set(said.map(({ speaker }) => speaker))]
    const found: Row[] = []
    const add = async (name: string, samples: Float32Array) => {
      // A share of the recording for each operator who might be listened to.
      const share = Math.max(1, Math.ceil(samples.length / Math.max(1, speakers.length)))
      const validAt = (sample: number) => validFor(speakers[Math.floor(sample / share)] ?? '')
      found.push({
        condition,
        speaker: name,
        tally: tallyOf([], await listenThrough(samples, validAt, models), samples.length)
      })
    }
    for (const recording of long) {
      const silent = { ...recording, label: OTHER }
      await add(`${OTHER} ${recording.speaker}`, streamOf([silent], condition, SEED).samples)
    }
    if (condition.noise && aloneSeconds > 0) {
      const noise = condition.noise.under('')
      const samples = Float32Array.from(
        { length: aloneSeconds * SAMPLE_RATE },
        (_, at) => 0.3 * (noise[at % noise.length] ?? 0)
      )
      await add(`${OTHER} noise alone`, samples)
    }
    return found
  }
}

/** The phrase that is said and so many others that could be said instead. */
function among(book: Phrasebook, label: string, labels: readonly string[], active: number, turn: number): Phrasebook {
  const chance = seeded(SEED + turn)
  const others = labels
    .filter((one) => one !== label)
    .map((one) => ({ one, order: chance() }))
    .toSorted((a, b) => a.order - b.order)
    .slice(0, label === '' ? active : active - 1)
    .map(({ one }) => one)
  return book.filter(({ words }) => words === label || others.includes(words))
}

try {
  await main(process.argv.slice(2))
} catch (failure) {
  if (!(failure instanceof Error)) throw failure
  console.error(failure.message)
  process.exitCode = 2
}
