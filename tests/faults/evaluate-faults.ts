/**
 * `npm run eval:faults -- --seeds N [--from S] [--json]`: plays seeds; `--seed S` plays one and tells all that happened.
 * `--kills N` kills the built server under load instead, `--page-kills N` Chromium in the middle of a run.
 */
import { realKills } from './real-kills.ts'
import { playSeed, type Played } from './play-seed.ts'

const args = process.argv.slice(2)
const number = (name: string, otherwise: number): number => {
  const at = args.indexOf(`--${name}`)
  return at < 0 ? otherwise : Number(args[at + 1])
}
for (const kind of ['kills', 'page-kills'] as const) {
  const kills = number(kind, 0)
  if (kills > 0) process.exit(realKills(kind, kills))
}
const one = number('seed', 0)
const seeds = one > 0 ? 1 : number('seeds', 200)
const from = one > 0 ? one : number('from', 1)
if (![seeds, from].every((given) => Number.isInteger(given) && given > 0)) {
  console.error('Give whole numbers from 1: --seeds 1000 --from 1, or --seed 7.')
  process.exit(2)
}

const COUNTED = [
  'events',
  'deviceCrashes',
  'serverCrashes',
  'fullDisks',
  'clockJumps',
  'dropped',
  'lost',
  'repeated',
  'delayed'
] as const
const total = Object.fromEntries(COUNTED.map((name) => [name, 0])) as Record<(typeof COUNTED)[number], number>
const failed: Played[] = []
let worstShortfallMs = -Infinity
const started = performance.now()
for (let seed = from; seed < from + seeds; seed += 1) {
  const played = await playSeed(seed)
  worstShortfallMs = Math.max(worstShortfallMs, played.worstShortfallMs)
  for (const name of COUNTED) total[name] += played[name]
  if (played.wrong.length > 0) {
    failed.push(played)
    console.error(`seed ${seed}: ${played.wrong.slice(0, 3).join('; ')}`)
    console.error(`  again: npm run eval:faults -- --seed ${seed}`)
  }
  if (one > 0) for (const line of played.trace) console.log(line)
}
const seconds = Math.round((performance.now() - started) / 1000)
const figures = { seeds, failed: failed.length, seconds, worstShortfallMs, ...total }
if (args.includes('--json')) console.log(JSON.stringify({ ...figures, failing: failed.map(({ seed }) => seed) }))
else console.table([figures])
process.exitCode = failed.length === 0 ? 0 : 1
