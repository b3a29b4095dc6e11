/**
 * `npm run eval:yardstick -- --clips DIR [--snr LIST] [--seed N]`: what Debian's pocketsphinx (packages pocketsphinx and
 * pocketsphinx-en-us) makes of the same streams as `npm run eval:ears`, with a grammar of the very phrases and with the
 * place of each utterance given to it. An outside measure of how hard the recordings are.
 */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { SAMPLE_RATE } from '../../src/core/ears/sound.ts'
import { grouped } from '../helpers/grouped.ts'
import { readOptions } from '../sanitizer/options.ts'
import { conditionsOf, noisesFrom } from './conditions.ts'
import { OTHER, readLabelled } from './labelled.ts'
import { streamOf } from './listen-through.ts'

const MODEL = '/usr/share/pocketsphinx/model/en-us'
const AROUND = 0.3 * SAMPLE_RATE

const options = readOptions(process.argv.slice(2), ['clips', 'snr', 'seed'], [])
const folder = options.text('clips')
if (folder === undefined) throw new Error('--clips needs the folder with labels.csv.')
const seed = options.number('seed') ?? 4
const ratios = (options.text('snr') ?? '20,10,5').split(',').map(Number)
const clips = await readLabelled(folder)
const commands = clips.filter(({ label }) => label !== OTHER)
const phrases = [...new Set(commands.map(({ label }) => label))]
const work = mkdtempSync(join(tmpdir(), 'yardstick-'))
writeFileSync(join(work, 'phrases.gram'), `#JSGF V1.0;\ngrammar phrases;\npublic <phrase> = ${phrases.join(' | ')};\n`)

for (const condition of conditionsOf(await noisesFrom(undefined, clips, seed), ratios)) {
  const labels: string[] = []
  for (const [, own] of grouped(commands, ({ speaker }) => speaker)) {
    const { samples, spoken } = streamOf(own, condition, seed)
    for (const { label, start, end } of spoken) {
      const part = samples.subarray(Math.max(0, start - AROUND), end + AROUND)
      writeFileSync(
        join(work, `${labels.length}.raw`),
        Int16Array.from(part, (value) => limited(32_000 * value))
      )
      labels.push(label)
    }
  }
  writeFileSync(join(work, 'list'), labels.map((_, at) => at).join('\n'))
  execFileSync(
    'pocketsphinx_batch',
    [
      ...[
        '-hmm',
        join(MODEL, 'en-us'),
        '-dict',
        join(MODEL, 'cmudict-en-us.dict'),
        '-jsgf',
        join(work, 'phrases.gram')
      ],
      ...['-ctl', join(work, 'list'), '-cepdir', work, '-cepext', '.raw', '-adcin', 'yes', '-hyp', join(work, 'heard')]
    ],
    { stdio: 'ignore' }
  )
  const heard = readFileSync(join(work, 'heard'), 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => line.replace(/ ?\([^()]*\)$/, '').trim())
  const right = labels.filter((label, at) => heard[at] === label).length
  const name = `${condition.noise?.name ?? 'quiet'} ${condition.snr ?? ''}`
  console.log(`${name.padEnd(14)}${labels.length} said, ${((100 * right) / labels.length).toFixed(1)} % right`)
}
rmSync(work, { recursive: true })

function limited(value: number): number {
  return Math.max(-32_768, Math.min(32_767, Math.round(value)))
}
