/** What one run tells whoever looks back over many. */
import type { ReadingKind, ReadingUnit, Text } from '../procedure/procedure.ts'
import { isAttempt } from './recorded-trouble.ts'
import type { RunRecord } from './run-record.ts'

export interface RunFigures {
  readonly run: string
  readonly machine: string
  readonly procedure: string
  readonly zone: string
  /** Trusted epoch ms. */
  readonly startedAt: number
  /** From its beginning to its end, interruptions included; null while it is not over, or was ended early. */
  readonly durationSeconds: number | null
  readonly attempts: number
  readonly corrections: number
  readonly readings: readonly {
    readonly kind: ReadingKind
    readonly unit: ReadingUnit
    readonly value: number
    readonly good: boolean
  }[]
  /** Hands-on seconds of each step that nothing broke into, all its lanes and rounds together. */
  readonly steps: readonly {
    readonly step: string
    readonly say: Text
    readonly seconds: number
    readonly planned: number
  }[]
}

const KINDS: Readonly<Record<ReadingUnit, ReadingKind>> = {
  '[ppm]': 'strength',
  Cel: 'temperature',
  '[degF]': 'temperature',
  '[pH]': 'ph'
}

export function runFigures(record: RunRecord): RunFigures {
  const { run, machine, procedure, zone, startedAt, endedAt, status } = record
  return {
    run,
    machine,
    procedure: procedure.id,
    zone,
    startedAt,
    durationSeconds: status === 'complete' && endedAt !== null ? (endedAt - startedAt) / 1000 : null,
    attempts: record.refused.filter(isAttempt).length,
    corrections: record.corrections.length,
    // What was corrected later counts as it should have been.
    readings: record.checks.flatMap(({ answer, good, takenBack, amendments }) => {
      const last = amendments.at(-1)
      const given = last?.now ?? answer
      if (given.kind !== 'reading' || takenBack) return []
      return [{ kind: KINDS[given.unit], unit: given.unit, value: given.value, good: last?.good ?? good }]
    }),
    steps: stepTimes(record)
  }
}

function stepTimes({ steps }: RunRecord): RunFigures['steps'] {
  const times = new Map<string, RunFigures['steps'][number]>()
  for (const { step, say, actualSeconds, plannedSeconds, takenBack } of steps) {
    if (actualSeconds === null || takenBack) continue
    const known = times.get(step)
    times.set(step, {
      step,
      say,
      seconds: (known?.seconds ?? 0) + actualSeconds,
      planned: (known?.planned ?? 0) + plannedSeconds
    })
  }
  return [...times.values()]
}
