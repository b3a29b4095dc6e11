/**
 * `npm run eval:plan [-- --seeds N] [--json]`: crews on the procedures that come with the program, with step times that
 * vary. What does a plan save, and does it keep the upper limits?
 */
import { DEFAULTS } from '../../src/core/plan/plan.ts'
import { AS_STATED } from '../../src/core/plan/problem-of-run.ts'
import { layOut, type Course } from '../../src/core/procedure/course.ts'
import type { Procedure, Step } from '../../src/core/procedure/procedure.ts'
import { median, percentile } from '../bench/report.ts'
import { lognormal, seeded } from '../helpers/seeded.ts'
import { SHIPPED } from '../procedures/shipped-files.ts'
import { runCommand, printed, type Outcome } from '../sanitizer/command.ts'
import { readOptions } from '../sanitizer/options.ts'
import { carryOut, type Carried, type Guide, type Times } from '../../src/core/plan/crew.ts'
import { alternate, oneSideThenOther, stayUntilWait } from './habits.ts'

const HELP = `npm run eval:plan [-- --seeds N] [--json]
  --seeds N   how many runs of each crew; 20 when it is left out`

/**
 * How much one step varies, and the whole day: shares of the mean. Assumed; that times are lognormal and the day counts
 * is published (May, Strum, Vargas 2000; Trietsch et al. 2011), these two figures are not.
 */
const STEP_CV = 0.35
const DAY_CV = 0.15

const withSlack = DEFAULTS
const noSlack = { ...DEFAULTS, slackMs: 0 }

const CREWS: Readonly<Record<string, Guide>> = {
  'one side, then the other': { kind: 'habit', habit: oneSideThenOther },
  alternate: { kind: 'habit', habit: alternate },
  'stay until a wait': { kind: 'habit', habit: stayUntilWait },
  'planned once, no slack': { kind: 'plan', options: noSlack, replans: false },
  'planned once, 60 s slack': { kind: 'plan', options: withSlack, replans: false },
  're-planned, no slack': { kind: 'plan', options: noSlack, replans: true },
  're-planned, 60 s slack': { kind: 'plan', options: withSlack, replans: true }
}

/** The procedures leave much room above their minimum waits. Tighter ones, for every wait, show what a plan keeps then. */
const LIMITS: Readonly<Record<string, (procedure: Procedure) => Procedure>> = {
  'as written': (procedure) => procedure,
  'minimum + 300 s': (procedure) => limitedTo(procedure, 300),
  'minimum + 120 s': (procedure) => limitedTo(procedure, 120)
}

function limitedTo(procedure: Procedure, roomSeconds: number): Procedure {
  const limited = (step: Step): Step =>
    step.wait ? { ...step, wait: { ...step.wait, maxSeconds: step.wait.minSeconds + roomSeconds } } : step
  return {
    ...procedure,
    stages: procedure.stages.map((stage) => ({ ...stage, steps: stage.steps.map(limited) }))
  }
}

const OURS = 're-planned, 60 s slack'

interface Row {
  readonly procedure: string
  readonly limits: string
  readonly crew: string
  readonly meanMinutes: number
  readonly p95Minutes: number
  /** Median over the runs of how much longer than the re-planned crew with slack, %. */
  readonly overOursPercent: number
  readonly runsMissingALimitPercent: number
  readonly givenUp: number
}

function timesOf(seed: number): Times {
  const day = lognormal(seeded(seed), 1, DAY_CV)
  return {
    // The same step of the same run takes every crew as long.
    handsMs: (lane, { step }, round) =>
      Math.round(
        lognormal(seeded(hashed(`${seed} ${lane} ${step.id} ${round}`)), step.handsSeconds * 1000 * day, STEP_CV)
      ),
    assumed: AS_STATED
  }
}

/** FNV-1a, 32 bits. */
function hashed(text: string): number {
  let hash = 0x811c9dc5
  for (const letter of text) hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 0x01000193)
  return hash >>> 0
}

function rowsOf(procedure: string, limits: string, course: Course, seeds: number): readonly Row[] {
  const carried = Object.fromEntries(
    Object.entries(CREWS).map(([crew, guide]) => [
      crew,
      Array.from({ length: seeds }, (_, index) => carryOut(course, guide, timesOf(index + 1)))
    ])
  )
  const ours = carried[OURS] ?? []
  return Object.entries(carried).map(([crew, runs]) => ({
    procedure,
    limits,
    crew,
    meanMinutes: mean(runs.map(({ minutes }) => minutes)),
    p95Minutes: percentile(
      runs.map(({ minutes }) => minutes),
      95
    ),
    overOursPercent: median(runs.map(({ minutes }, index) => 100 * (minutes / (ours[index]?.minutes ?? 1) - 1))),
    runsMissingALimitPercent: (100 * runs.filter(({ missed }) => missed > 0).length) / runs.length,
    givenUp: runs.filter(({ isGivenUp }: Carried) => isGivenUp).length
  }))
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}

function work(args: readonly string[]): Outcome {
  const seeds = Math.ceil(readOptions(args, ['seeds'], ['json']).number('seeds', { above: 0, most: 10_000 }) ?? 20)
  const rows = SHIPPED.flatMap(({ name, procedure }) =>
    Object.entries(LIMITS).flatMap(([limits, limited]) =>
      rowsOf(name.replace('.yaml', ''), limits, layOut(limited(procedure)), seeds)
    )
  )
  return {
    json: { seeds, stepCv: STEP_CV, dayCv: DAY_CV, rows },
    lines: [
      line('procedure', 'limits', 'crew', 'mean min', 'p95 min', 'over ours', 'runs missing a limit', 'given up'),
      ...rows.map((row) =>
        line(
          row.procedure,
          row.limits,
          row.crew,
          row.meanMinutes.toFixed(1),
          row.p95Minutes.toFixed(1),
          `${row.overOursPercent.toFixed(1)} %`,
          `${row.runsMissingALimitPercent.toFixed(1)} %`,
          String(row.givenUp)
        )
      ),
      `${seeds} runs of each crew on the same days; a step varies by ${STEP_CV}, a day by ${DAY_CV} (assumed).`
    ]
  }
}

function line(procedure: string, limits: string, crew: string, ...figures: readonly string[]): string {
  const words = [procedure.padEnd(22), limits.padEnd(16), crew.padEnd(25)]
  return [...words, ...figures.map((figure) => figure.padStart(10))].join(' ')
}

runCommand((args) => printed(args, HELP, work))
