import { execFile } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { expect, test } from 'vitest'
import { pcm16, wavFile } from '../helpers/wav.ts'
import { readLabelled } from './labelled.ts'
import { readAudio } from './read-audio.ts'

const run = promisify(execFile)
const clips = join(import.meta.dirname, 'clips')
const command = join(import.meta.dirname, 'evaluate-ears.ts')
const tsx = join(import.meta.dirname, '../../node_modules/tsx/dist/cli.mjs')

interface Report {
  readonly conditions: readonly {
    readonly noise: string
    readonly snr: number | null
    readonly n: number
    readonly right: number
    readonly wrong: number
    readonly missed: number
    readonly falseAcceptsPerHour: number
    readonly latencyMs: number | null
  }[]
  readonly totals: Report['conditions']
  readonly noiseAlone: readonly { readonly noise: string }[]
}

test('practised phrases are heard in quiet and beside a fan, and nothing in the fan alone', async () => {
  const { stdout } = await run(process.execPath, [
    ...[tsx, command, '--clips', join(clips, 'spoken'), '--enrol', join(clips, 'enrol')],
    ...['--snr', '10', '--alone', '20', '--json']
  ])
  const { conditions, noiseAlone } = JSON.parse(stdout) as Report
  const spoken = conditions.filter(({ n }) => n > 0)
  expect(spoken.map(({ noise, snr }) => [noise, snr])).toEqual([
    ['quiet', null],
    ['fan', 10],
    ['clatter', 10],
    ['water', 10],
    ['babble', 10]
  ])
  for (const { n, right, wrong, missed } of spoken) expect(right + wrong + missed).toBe(n)
  expect(spoken.slice(0, 2).map(({ n, right, wrong }) => ({ n, right, wrong }))).toEqual([
    { n: 3, right: 3, wrong: 0 },
    { n: 3, right: 3, wrong: 0 }
  ])
  expect(noiseAlone.find(({ noise }) => noise === 'fan')).toMatchObject({ falseAccepts: 0, falseAcceptsPerHour: 0 })
}, 120_000)

test('an attention word comes before each of the other commands, and both are counted', async () => {
  const { stdout } = await run(process.execPath, [
    ...[tsx, command, '--clips', join(clips, 'spoken'), '--enrol', join(clips, 'enrol')],
    ...['--attention', 'all done', '--snr', ',', '--alone', '0', '--json']
  ])
  const { totals } = JSON.parse(stdout) as Report
  expect(totals.map(({ n, right, wrong }) => ({ n, right, wrong }))).toEqual([{ n: 4, right: 4, wrong: 0 }])
}, 120_000)

/** `samples` come at 16 kHz and are repeated to the rate, which must be a multiple. */
function wav(samples: Float32Array, rate: number, channels: number): Buffer {
  const times = (rate / 16_000) * channels
  const repeated = Float32Array.from(
    { length: samples.length * times },
    (_, at) => samples[Math.floor(at / times)] ?? 0
  )
  return wavFile(pcm16(repeated), { rate, channels })
}

test('strange folders are read: other columns, labels, rates, channels, clips cut out closely, own noises', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'ears-'))
  try {
    const [said, again] = await Promise.all(
      ['all_done-4', 'say_again-4'].map((name) => readAudio(join(clips, 'spoken', `${name}.flac`)))
    )
    const close = (said ?? new Float32Array(0)).filter((value, at, all) => Math.abs(value) > 0 && at < all.length - 800)
    mkdirSync(join(folder, 'noises/deep'), { recursive: true })
    writeFileSync(join(folder, 'close.wav'), wav(close, 48_000, 2))
    writeFileSync(join(folder, 'long.wav'), wav(again ?? new Float32Array(0), 16_000, 1))
    writeFileSync(
      join(folder, 'noises/deep/hiss.wav'),
      wav(
        Float32Array.from({ length: 4000 }, (_, at) => ((at * 7919) % 101) / 101 - 0.5),
        32_000,
        1
      )
    )
    writeFileSync(
      join(folder, 'labels.csv'),
      '\uFEFF,Label,note,File\r\n0,All_Done,"first, and loud",close.wav\r\n1,front centre,,long.wav\r\n2,-,,long.wav\r\n\r\n'
    )
    const { stdout, stderr } = await run(process.execPath, [
      ...[tsx, command, '--clips', folder, '--noise', join(folder, 'noises')],
      ...['--snr', '20', '--alone', '5', '--active', '2', '--json']
    ])
    const { conditions, totals } = JSON.parse(stdout) as Report
    expect(conditions.map(({ noise, snr, n }) => [noise, snr, n])).toEqual([
      ['quiet', null, 2],
      ['deep/hiss', 20, 2]
    ])
    expect(totals[0]).toMatchObject({ noise: 'quiet', n: 2, falseAcceptsPerHour: 0 })
    expect(stderr).toContain('front centre')
  } finally {
    rmSync(folder, { recursive: true })
  }
}, 120_000)

test.each([
  ['file,label\ngone.wav,done\n', 'line 2: There is no file'],
  ['file,label\nlabels.csv,done\n', 'neither WAV nor FLAC'],
  ['file,label\n', 'lists no file'],
  ['file,speaker\na.wav,b\n', 'no column "label"'],
  ['file,label\na.wav,\n', 'line 2 has no label']
])('what is wrong with a folder is told by file and line: %j', async (csv, told) => {
  const folder = mkdtempSync(join(tmpdir(), 'ears-'))
  try {
    writeFileSync(join(folder, 'labels.csv'), csv)
    await expect(readLabelled(folder)).rejects.toThrow(told)
  } finally {
    rmSync(folder, { recursive: true })
  }
})

test('a wrong option is told in words', async () => {
  const failed = run(process.execPath, [tsx, command, '--clips', join(clips, 'spoken'), '--snr', 'loud'])
  await expect(failed).rejects.toMatchObject({ code: 2, stderr: expect.stringContaining('"loud" is no number') })
})
