import { execFile } from 'node:child_process'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { expect, test } from 'vitest'

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

test('a wrong option is told in words', async () => {
  const failed = run(process.execPath, [tsx, command, '--clips', join(clips, 'spoken'), '--snr', 'loud'])
  await expect(failed).rejects.toMatchObject({ code: 2, stderr: expect.stringContaining('"loud" is no number') })
})
