/** Prints an evaluation as tables for people or as JSON for programs. */
import { grouped } from '../helpers/grouped.ts'
import type { Condition } from './conditions.ts'
import { OTHER } from './labelled.ts'
import { added, p95, type Tally } from './tally.ts'

export interface Row {
  readonly condition: Condition
  readonly speaker: string
  readonly tally: Tally
}

const noiseOf = ({ noise }: Condition) => noise?.name ?? 'quiet'
const percent = (part: number, whole: number) => (whole === 0 ? '' : ((100 * part) / whole).toFixed(1))
const perHour = ({ falseAccepts, hours }: Tally) => (hours === 0 ? 0 : falseAccepts / hours)

export function printJson(rows: readonly Row[]): void {
  const conditions = rows.map(({ condition, speaker, tally }) => ({
    noise: noiseOf(condition),
    snr: condition.snr,
    speaker,
    n: tally.n,
    right: tally.right,
    wrong: tally.wrong,
    missed: tally.missed,
    asked: tally.asked,
    falseAcceptsPerHour: perHour(tally),
    latencyMs: p95(tally.latenciesMs)
  }))
  const confusion = [...confusionOf(rows)].map(([said, heard]) => ({ said, heard: Object.fromEntries(heard) }))
  console.log(JSON.stringify({ conditions, confusion }, null, 2))
}

export function printTable(rows: readonly Row[]): void {
  const line = (cells: readonly (string | number)[]) =>
    console.log(cells.map((cell, at) => (at === 0 ? String(cell).padEnd(22) : String(cell).padStart(9))).join(''))
  line(['noise, dB', 'n', 'right %', 'wrong %', 'missed %', 'asked %', 'p95 ms'])
  const said = rows.filter(({ speaker }) => !speaker.startsWith(OTHER))
  for (const [name, own] of grouped(said, ({ condition }) => `${noiseOf(condition)} ${condition.snr ?? ''}`)) {
    const tally = added(own.map((row) => row.tally))
    const { n, right, wrong, missed, asked, latenciesMs } = tally
    const latency = p95(latenciesMs)
    const shares = [right, wrong, missed, asked].map((part) => percent(part, n))
    line([name, n, ...shares, latency === null ? '' : Math.round(latency)])
  }
  console.log('\nspeaker, all conditions: right %')
  for (const [speaker, own] of grouped(said, (row) => row.speaker)) {
    const { n, right } = added(own.map((row) => row.tally))
    line([speaker, percent(right, n)])
  }
  console.log('\nfalse accepts an hour')
  const between = added(said.map((row) => row.tally))
  line(['between commands', perHour(between).toFixed(2), `${between.hours.toFixed(2)} h`])
  const others = rows.filter(({ speaker }) => speaker.startsWith(OTHER))
  for (const [name, own] of grouped(others, ({ speaker }) => speaker)) {
    const tally = added(own.map((row) => row.tally))
    line([name, perHour(tally).toFixed(2), `${tally.hours.toFixed(2)} h`])
  }
  console.log('\nsaid: heard (times)')
  for (const [words, heard] of confusionOf(rows)) {
    console.log(`${words}: ${[...heard].map(([one, times]) => `${one} ${times}`).join(', ')}`)
  }
}

function confusionOf(rows: readonly Row[]): ReadonlyMap<string, ReadonlyMap<string, number>> {
  const table = new Map<string, Map<string, number>>()
  for (const [said, heard] of rows.flatMap(({ tally }) => tally.confusions)) {
    const line = table.get(said) ?? new Map<string, number>()
    line.set(heard, (line.get(heard) ?? 0) + 1)
    table.set(said, line)
  }
  return table
}
