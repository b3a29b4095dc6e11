/** Plans a procedure file from a shell: who is served when, how good that is, and what crews do without a plan. */
import { readFileSync } from 'node:fs'
import { naiveOrders, type NaiveOrders } from '../../src/core/plan/naive-orders.ts'
import { DEFAULTS, planFor, type Plan } from '../../src/core/plan/plan.ts'
import { AS_STATED, problemOf } from '../../src/core/plan/problem-of-run.ts'
import type { Problem } from '../../src/core/plan/problem.ts'
import { checkProcedure } from '../../src/core/procedure/check-procedure.ts'
import { layOut } from '../../src/core/procedure/course.ts'
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import { readProcedure } from '../../src/core/procedure/read-procedure.ts'
import { emptyRun } from '../../src/core/run/reduce.ts'
import { printed, type Outcome, type Printed } from '../sanitizer/command.ts'
import { BadInput, readOptions, type Options } from '../sanitizer/options.ts'
import { faultWords } from './fault-words.ts'
import { planLines } from './plan-lines.ts'
import { withSides } from './with-sides.ts'

const HELP = `npm run --silent plan -- FILE [--sides N] [--hands N] [--json]
  FILE        a procedure, as YAML
  --sides N   for a machine with N sides: those of the file, taken over and over
  --hands N   for so many pairs of hands; for one when it is left out
Hands-on times as stated, every wait within its limits, repeats at their least number of rounds. A bound that equals the
finish proves it best. Limits are planned to the second; during a run a minute of slack is kept before them.
Ends with 2 for bad input.`

const MOST_SIDES = 100
/** More would stand in each other's way at one machine; common practice, no source. */
const MOST_HANDS = 8

const NAMES = ['sides', 'hands']

export function planCommand(args: readonly string[]): Printed {
  return printed(args, HELP, work)
}

function work(args: readonly string[]): Outcome {
  const { file, rest } = fileIn(args)
  const options = readOptions(rest, NAMES, ['json'])
  const sides = wholeNumber(options, 'sides', MOST_SIDES)
  const hands = wholeNumber(options, 'hands', MOST_HANDS) ?? 1
  if (file === undefined) throw new BadInput(null, 'Name a procedure file.')
  const procedure = procedureIn(file)
  const problem = { ...problemFor(procedure, sides), hands: Array.from({ length: hands }, () => null) }
  const planned = planFor(problem, { ...DEFAULTS, slackMs: 0 })
  if (planned.kind === 'fault') throw new BadInput(null, `${file}: ${faultWords(planned.fault)}`)
  const naive = naiveOrders(problem)
  return {
    json: asJson(file, problem, planned.plan, naive),
    lines: planLines(planned.plan, naive, hands)
  }
}

/** The one argument that is neither an option nor the value of one. */
function fileIn(args: readonly string[]): { readonly file: string | undefined; readonly rest: readonly string[] } {
  const hasValue = (arg: string | undefined) => arg !== undefined && /^--(?!json$)[^=]*$/.test(arg)
  const files = args.filter((arg, index) => !arg.startsWith('--') && !hasValue(args[index - 1]))
  if (files.length > 1) throw new BadInput(null, `Name one procedure file, not ${files.length}: ${files.join(', ')}`)
  const [file] = files
  return { file, rest: args.filter((arg, index) => arg !== file || hasValue(args[index - 1])) }
}

function wholeNumber(options: Options, name: string, most: number): number | undefined {
  const value = options.number(name, { above: 0, most })
  if (value !== undefined && !Number.isInteger(value))
    throw new BadInput(name, `--${name} is ${value}. It must be a whole number.`)
  return value
}

function procedureIn(file: string): Procedure {
  const read = readProcedure(textOf(file))
  if (read.kind === 'read') return read.procedure
  const lines = read.problems.map(
    ({ line, column, what, mend }) => `${file}${line === null ? '' : `:${line}:${column}`} ${what} ${mend}`
  )
  throw new BadInput(null, lines.join('\n'))
}

function textOf(file: string): string {
  try {
    return readFileSync(file, 'utf8')
  } catch (error) {
    const isMissing = (error as NodeJS.ErrnoException).code === 'ENOENT'
    throw new BadInput(null, isMissing ? `There is no file ${file}.` : `${file} cannot be read: ${String(error)}`)
  }
}

function problemFor(given: Procedure, sides: number | undefined): Problem {
  const procedure = sides === undefined ? given : withSides(given, sides)
  const problems = procedure === given ? [] : checkProcedure(procedure)
  if (problems.length > 0)
    throw new BadInput('sides', problems.map(({ what }) => `With ${sides} sides: ${what}`).join('\n'))
  const course = layOut(procedure)
  return problemOf(course, emptyRun(course, 'plan'), 0, AS_STATED)
}

function asJson(file: string, problem: Problem, plan: Plan, naive: NaiveOrders): Outcome['json'] {
  const { oneSideThenOther, alternate, stayUntilWait } = naive
  return {
    file,
    lanes: [...problem.chains, problem.machine].filter(({ tasks }) => tasks.length > 0).map(({ lane }) => lane),
    hands: problem.hands.length,
    changeSeconds: seconds(problem.changeMs),
    finishSeconds: seconds(plan.finish),
    lowerBoundSeconds: seconds(plan.lowerBound),
    gapSeconds: seconds(plan.finish - plan.lowerBound),
    switches: plan.switches,
    limits:
      plan.limits.kind === 'kept'
        ? { kept: true, lateSeconds: 0 }
        : { kept: false, lateSeconds: seconds(plan.limits.lateMs) },
    order: plan.order.map(({ lane, step, round, start, end, hands, minMs }) => ({
      lane,
      step,
      round,
      hands,
      startSeconds: seconds(start),
      endSeconds: seconds(end),
      waitSeconds: seconds(minMs)
    })),
    naive: {
      oneSideThenOther: seconds(oneSideThenOther.finish),
      alternate: seconds(alternate.finish),
      stayUntilWait: seconds(stayUntilWait.finish)
    },
    naiveMissedLimits: {
      oneSideThenOther: oneSideThenOther.missed,
      alternate: alternate.missed,
      stayUntilWait: stayUntilWait.missed
    }
  }
}

function seconds(ms: number): number
function seconds(ms: number | null): number | null
function seconds(ms: number | null): number | null {
  return ms === null ? null : ms / 1000
}
