/** Many runs looked at together: what changes, what goes wrong, and which step costs the most time. */
import type { ReadingUnit, Text } from '../procedure/procedure.ts'
import type { RunFigures } from './run-figures.ts'

export interface Point {
  /** Trusted epoch ms. */
  readonly at: number
  readonly value: number
  /** Out of limits. */
  readonly bad: boolean
}

export interface StepCost {
  readonly step: string
  readonly say: Text
  /** Median of the runs, seconds of hands in one run. */
  readonly seconds: number
  readonly planned: number
  readonly runs: number
}

export interface Trends {
  readonly runs: number
  /** One for each unit that was read. */
  readonly readings: readonly { readonly unit: ReadingUnit; readonly points: readonly Point[] }[]
  /** Minutes. */
  readonly duration: readonly Point[]
  readonly attempts: readonly Point[]
  readonly corrections: readonly Point[]
  /** The one that takes the most time first. */
  readonly steps: readonly StepCost[]
}

/** `runs` in any order. */
export function trendsOf(runs: readonly RunFigures[]): Trends {
  const ordered = runs.toSorted((a, b) => a.startedAt - b.startedAt)
  const units = [...new Set(ordered.flatMap(({ readings }) => readings.map(({ unit }) => unit)))]
  const counted = (of: (run: RunFigures) => number): readonly Point[] =>
    ordered.map((run) => ({ at: run.startedAt, value: of(run), bad: of(run) > 0 }))
  return {
    runs: ordered.length,
    readings: units.map((unit) => ({
      unit,
      points: ordered.flatMap(({ startedAt, readings }) =>
        readings.flatMap((one) => (one.unit === unit ? [{ at: startedAt, value: one.value, bad: !one.good }] : []))
      )
    })),
    duration: ordered.flatMap(({ startedAt, durationSeconds }) =>
      durationSeconds === null ? [] : [{ at: startedAt, value: durationSeconds / 60, bad: false }]
    ),
    attempts: counted(({ attempts }) => attempts),
    corrections: counted(({ corrections }) => corrections),
    steps: stepCosts(ordered)
  }
}

function stepCosts(runs: readonly RunFigures[]): readonly StepCost[] {
  const times = new Map<string, { readonly say: Text; readonly seconds: number[]; readonly planned: number[] }>()
  for (const { procedure, steps } of runs) {
    for (const { step, say, seconds, planned } of steps) {
      const key = `${procedure} ${step}`
      const known = times.get(key) ?? { say, seconds: [], planned: [] }
      known.seconds.push(seconds)
      known.planned.push(planned)
      times.set(key, known)
    }
  }
  return [...times]
    .map(([step, { say, seconds, planned }]) => ({
      step,
      say,
      seconds: median(seconds),
      planned: median(planned),
      runs: seconds.length
    }))
    .sort((a, b) => b.seconds - a.seconds)
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b)
  const middle = Math.floor(sorted.length / 2)
  const upper = sorted[middle] ?? 0
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? 0) + upper) / 2
}
