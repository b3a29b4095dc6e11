/** A procedure tried in no time: one day carried out by a crew that is not there, and many more days counted. */
import { layOut } from '../procedure/course.ts'
import type { Procedure } from '../procedure/procedure.ts'
import { carryOut, type CarriedNote } from './crew.ts'
import { DEFAULTS } from './plan.ts'
import { AS_STATED } from './problem-of-run.ts'

export interface Trial {
  readonly minutes: number
  readonly notes: readonly CarriedNote[]
  /** Longest waits that were missed on that day. */
  readonly missed: number
  /** It never ended. */
  readonly isGivenUp: boolean
  readonly days: {
    readonly count: number
    /** Days with a longest wait missed, or that never ended. */
    readonly bad: number
    /** Minutes that half, and four in five, of the days took. */
    readonly p50: number
    readonly p80: number
  }
}

const DAYS = 20
/** Standard deviations of the logarithm: of a step, and of a whole day. Guesses, near to what was published of such work. */
const [STEP_SPREAD, DAY_SPREAD] = [0.3, 0.15]

/** The first day takes what is stated; `seed` chooses the others. */
export function tryOut(procedure: Procedure, seed: number): Trial {
  const course = layOut(answerable(procedure))
  const crew = (factor: () => number) =>
    carryOut(
      course,
      { kind: 'plan', options: DEFAULTS, replans: false },
      { handsMs: (_, { step }) => step.handsSeconds * 1000 * factor(), assumed: AS_STATED }
    )
  const { minutes, notes, missed, isGivenUp } = crew(() => 1)
  const random = chances(seed)
  const days = Array.from({ length: DAYS }, () => {
    const day = lognormal(random, DAY_SPREAD)
    return crew(() => day * lognormal(random, STEP_SPREAD))
  })
  const sorted = days.map((day) => day.minutes).sort((a, b) => a - b)
  const quantile = (share: number) => sorted[Math.ceil(share * DAYS) - 1] ?? 0
  return {
    ...{ minutes, notes, missed, isGivenUp },
    days: {
      count: DAYS,
      bad: days.filter((day) => day.missed > 0 || day.isGivenUp).length,
      p50: quantile(0.5),
      p80: quantile(0.8)
    }
  }
}

/** The crew reads the middle of the author's limits; which values a rule set likes is not what is tried here. */
function answerable(procedure: Procedure): Procedure {
  return {
    ...procedure,
    stages: procedure.stages.map((stage) => ({
      ...stage,
      steps: stage.steps.map((step) => {
        if (step.check?.kind !== 'reading') return step
        const { heldTo: _held, ...check } = step.check
        return { ...step, check }
      })
    }))
  }
}

/** With a mean of 1. */
function lognormal(random: () => number, spread: number): number {
  const normal = Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
  return Math.exp(spread * normal - spread ** 2 / 2)
}

/** From 0 to below 1, always the same for one seed: a 32-bit xorshift (Marsaglia 2003). */
function chances(seed: number): () => number {
  let state = (seed ^ 0x9e3779b9) | 0 || 1
  return () => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    return (state >>> 0) / 2 ** 32
  }
}
