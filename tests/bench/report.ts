/** Figures with their budgets, as a table for people and as JSON for programs. */
export interface Figure {
  readonly name: string
  readonly value: number
  readonly unit: string
  /** What it must not go over; null when it is only told. */
  readonly atMost: number | null
  /** What it must reach. */
  readonly atLeast?: number
  /** How it was taken: median of how many, throttled how. */
  readonly how: string
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b)
  const middle = Math.floor(sorted.length / 2)
  return sorted.length % 2 === 1
    ? (sorted[middle] ?? Number.NaN)
    : ((sorted[middle - 1] ?? Number.NaN) + (sorted[middle] ?? Number.NaN)) / 2
}

/** Nearest rank: the smallest value that at least `share` percent do not exceed. */
export function percentile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[Math.max(0, Math.ceil((sorted.length * share) / 100) - 1)] ?? Number.NaN
}

export function printReport(figures: readonly Figure[]): void {
  const rows = figures.map(({ name, value, unit, atMost, atLeast, how }) => ({
    figure: name,
    value: `${round(value)} ${unit}`,
    budget: atMost !== null ? `at most ${atMost} ${unit}` : atLeast !== undefined ? `at least ${atLeast} ${unit}` : '',
    kept: atMost === null && atLeast === undefined ? '' : isKept(value, atMost, atLeast) ? 'yes' : 'NO',
    how
  }))
  console.table(rows)
  console.log(JSON.stringify({ figures: figures.map((figure) => ({ ...figure, value: round(figure.value) })) }))
}

function isKept(value: number, atMost: number | null, atLeast = -Infinity): boolean {
  return value >= atLeast && (atMost === null || value <= atMost)
}

function round(value: number): number {
  return Math.round(value * 1000) / 1000
}
