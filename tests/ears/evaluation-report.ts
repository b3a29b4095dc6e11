/** Prints an evaluation as tables for people or as JSON for programs. */
import { grouped } from '../helpers/grouped.ts'
import type { Condition } from './conditions.ts'
import { added, p95, type Tally } from './tally.ts'

/** Commands that were said, speech that is no command, or noise with nobody speaking. */
export type RowKind = 'commands' | 'other' | 'noise'

export interface Row {
  readonly kind: RowKind
  readonly condition: Condition
  readonly speaker: string
  readonly tally: Tally
  /** Milliseconds of processor time for each 80 ms of sound. */
  readonly hopsMs: readonly number[]
}

const noiseOf = ({ noise }: Condition) => noise?.name ?? 'quiet'
const nameOf = ({ condition }: Row) => `${noiseOf(condition)} ${condition.snr ?? ''}`.trim()
const percent = (part: number, whole: number) => (whole === 0 ? '' : ((100 * part) / whole).toFixed(1))
const perHour = ({ falseAccepts, hours }: Tally) => (hours === 0 ? null : falseAccepts / hours)
const together = (rows: readonly Row[]) => added(rows.map(({ tally }) => tally))

export function printJson(rows: readonly Row[]): void {
  const by = (kind: RowKind) => rows.filter((row) => row.kind === kind)
  const conditions = [...grouped(rows, (row) => `${nameOf(row)}\n${row.speaker}`).values()]
    .filter(([first]) => first?.kind !== 'noise')
    .map((own) => ({ speaker: own[0]?.speaker, ...measured(own) }))
  const totals = [...grouped([...by('commands'), ...by('other')], nameOf).values()].map(measured)
  const noiseAlone = by('noise').map(({ condition, tally }) => ({
    noise: noiseOf(condition),
    falseAccepts: tally.falseAccepts,
    hours: tally.hours,
    falseAcceptsPerHour: perHour(tally)
  }))
  const confusion = [...confusionOf(rows)].map(([said, heard]) => ({ said, heard: Object.fromEntries(heard) }))
  console.log(JSON.stringify({ conditions, totals, noiseAlone, confusion, hopMs: hopsOf(rows) }, null, 2))
}

/** Rows of one condition. False accepts are those in other speech where there is some, else those between commands. */
function measured(rows: readonly Row[]) {
  const said = together(rows.filter(({ kind }) => kind === 'commands'))
  const others = together(rows.filter(({ kind }) => kind === 'other'))
  const { n, right, wrong, missed, asked } = said
  return {
    noise: rows[0] ? noiseOf(rows[0].condition) : '',
    snr: rows[0]?.condition.snr ?? null,
    ...{ n, right, wrong, missed, asked },
    falseAcceptsPerHour: perHour(others.hours > 0 ? others : said),
    otherSpeech: { falseAccepts: others.falseAccepts, hours: others.hours },
    betweenCommands: { falseAccepts: said.falseAccepts, hours: said.hours },
    latencyMs: p95(said.latenciesMs)
  }
}

function hopsOf(rows: readonly Row[]) {
  const sorted = rows.flatMap(({ hopsMs }) => hopsMs).toSorted((a, b) => a - b)
  const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))] ?? null
  return { median: at(0.5), p95: at(0.95), p99: at(0.99), most: at(1) }
}

export function printTable(rows: readonly Row[]): void {
  const line = (cells: readonly (string | number)[]) =>
    console.log(cells.map((cell, at) => (at === 0 ? String(cell).padEnd(22) : String(cell).padStart(9))).join(''))
  const said = rows.filter(({ kind }) => kind === 'commands')
  if (said.length > 0) {
    line(['noise, dB', 'n', 'right %', 'wrong %', 'missed %', 'asked %', 'p95 ms'])
    for (const [name, own] of grouped(said, nameOf)) {
      const { n, right, wrong, missed, asked, latenciesMs } = together(own)
      const latency = p95(latenciesMs)
      const shares = [right, wrong, missed, asked].map((part) => percent(part, n))
      line([name, n, ...shares, latency === null ? '' : Math.round(latency)])
    }
    console.log('\nspeaker, all conditions: right %')
    for (const [speaker, own] of grouped(said, (row) => row.speaker)) {
      const { n, right } = together(own)
      line([speaker, percent(right, n)])
    }
  }
  console.log('\nfalse accepts an hour')
  const falseLine = (name: string, tally: Tally) => {
    const rate = perHour(tally)
    if (rate !== null) line([name, rate.toFixed(2), `${tally.falseAccepts} in`, `${tally.hours.toFixed(2)} h`])
  }
  falseLine('between commands', together(said))
  for (const [name, own] of grouped(
    rows.filter(({ kind }) => kind === 'other'),
    (row) => `other speech, ${nameOf(row)}`
  )) {
    falseLine(name, together(own))
  }
  for (const row of rows.filter(({ kind }) => kind === 'noise')) falseLine(`${nameOf(row)} alone`, row.tally)
  if (said.length > 0) console.log('\nsaid: heard (times)')
  for (const [words, heard] of confusionOf(rows)) {
    console.log(`${words}: ${[...heard].map(([one, times]) => `${one} ${times}`).join(', ')}`)
  }
  const hops = hopsOf(rows)
  const ms = (value: number | null) => `${value?.toFixed(1) ?? '-'} ms`
  console.log(
    `\nprocessor time for 80 ms of sound: median ${ms(hops.median)}, p95 ${ms(hops.p95)}, most ${ms(hops.most)}`
  )
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
