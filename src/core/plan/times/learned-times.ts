/**
 * How long the hands will take for a step: what its author states, moved towards what past runs took, the more the more
 * there are of them.
 *
 * A time is lognormal (Sauro and Lewis, CHI 2010; May, Strum and Vargas, Decision Sciences 31, 2000): its logarithm is
 * the stated one's plus effects of the shop, the operator, the machine and the step, the day's pace, which all steps of
 * a run share (Trietsch and others, European Journal of Operational Research 216, 2012), and noise. How noisy a step is
 * gets an inverse gamma prior, as in the normal-inverse-gamma model (Murphy, Conjugate Bayesian Analysis of the Gaussian
 * Distribution, 2007). All from memory.
 */
import { cutSquare, fittedEffects, type Beliefs, type Effect } from './effects.ts'
import { interruptionsIn, type Interruptions } from './interruptions.ts'
import type { TimeSample } from './time-sample.ts'

export interface StepTime {
  /** On average, at the usual pace. Planning goes by means, since it is means that add up. */
  readonly meanSeconds: number
  /** Of seconds. */
  readonly logMedian: number
  /** Of the logarithm: from one time to the next, and because the step is not known better. Without the day's pace. */
  readonly logVariance: number
  /** How many times it is known from. */
  readonly count: number
}

/** What all steps of one run have in common, a factor on every time: its logarithm, 0 as usual. */
export interface Pace {
  readonly logMean: number
  readonly logVariance: number
}

/** Plain data: it can be kept, or handed to another thread. */
export interface LearnedTimes {
  /** By step id, on whichever lane. */
  readonly steps: Readonly<Record<string, StepTime>>
  /** Of a run that has not begun. */
  readonly pace: Pace
  readonly interruptions: Interruptions
}

/** A step as its author wrote it. */
export interface StatedTime {
  readonly id: string
  readonly handsSeconds: number
}

/** Variances before any run: guesses, no source. A stated time weighs as much as one time taken. */
const BELIEFS: Beliefs = {
  noise: 0.35 ** 2,
  effects: { shop: 0.25 ** 2, operator: 0.2 ** 2, machine: 0.1 ** 2, step: 0.35 ** 2, day: 0.15 ** 2 },
  noiseWeight: 20,
  dayWeight: 5
}
/** That a step is as noisy as all steps are weighs as much as so many of its own times; a guess. */
const OWN_NOISE_WEIGHT = 10
/** People, machines and ways of working change: what is older says little. A guess. */
const MOST_RUNS = 60

/** `samples` of one procedure, at any machine, by anybody; the answer is for one operator at one machine. */
export function learnedTimes(
  samples: readonly TimeSample[],
  steps: readonly StatedTime[],
  { machine, operator }: Pick<TimeSample, 'machine' | 'operator'>
): LearnedTimes {
  const timed = steps.filter(({ handsSeconds }) => handsSeconds > 0)
  // The stated time is taken as the mean, so that without records a plan goes by exactly what the author wrote.
  const ground = new Map(
    timed.map(({ id, handsSeconds }) => [id, Math.log(handsSeconds) - (BELIEFS.noise + BELIEFS.effects.day) / 2])
  )
  const rows = newest(samples).flatMap((sample) => {
    const from = ground.get(sample.step)
    if (from === undefined || !(sample.seconds > 0)) return []
    return [{ ...sample, effects: effectsIn(sample), value: Math.log(sample.seconds) - from }]
  })
  const fit = fittedEffects(rows, BELIEFS)
  const common = commonTo(machine, operator)
  const commonVariance = fit.varianceOf(common)
  const times = rows.map((row) => ({ ...row, rest: row.value - fit.sumOf(row.effects) }))
  const restsOf = new Map<string, number[]>(timed.map(({ id }) => [id, []]))
  for (const { step, rest } of times) restsOf.get(step)?.push(rest)
  const learned = timed.map(({ id }): readonly [string, StepTime] => {
    const own: Effect = { kind: 'step', name: id }
    const rests = restsOf.get(id) ?? []
    const weight = OWN_NOISE_WEIGHT + rests.length
    const squares = OWN_NOISE_WEIGHT * fit.noise + rests.reduce((sum, rest) => sum + cutSquare(rest, fit.noise), 0)
    const logMedian = (ground.get(id) ?? 0) + fit.sumOf([...common, own])
    const unknown = Math.max(0, fit.varianceOf([...common, own]) - commonVariance)
    return [
      id,
      {
        meanSeconds: Math.exp(logMedian + (squares / weight + fit.dayVariance) / 2),
        logMedian,
        // The variance of the Student t that an inverse gamma mixes normals to.
        logVariance: squares / (weight - 2) + unknown,
        count: rests.length
      }
    ]
  })
  return {
    steps: Object.fromEntries(learned),
    pace: { logMean: 0, logVariance: fit.dayVariance + commonVariance },
    interruptions: interruptionsIn(times, fit.noise)
  }
}

function commonTo(machine: string, operator: string): readonly Effect[] {
  return [
    { kind: 'shop', name: '' },
    { kind: 'operator', name: operator },
    { kind: 'machine', name: machine }
  ]
}

function effectsIn({ step, machine, operator, run }: TimeSample): readonly Effect[] {
  return [...commonTo(machine, operator), { kind: 'step', name: step }, { kind: 'day', name: run }]
}

function newest(samples: readonly TimeSample[]): readonly TimeSample[] {
  const lastOf = new Map<string, number>()
  for (const { run, at } of samples) lastOf.set(run, Math.max(at, lastOf.get(run) ?? Number.NEGATIVE_INFINITY))
  const runs = [...lastOf].sort(([a, atA], [b, atB]) => atB - atA || (a < b ? -1 : 1)).slice(0, MOST_RUNS)
  const kept = new Set(runs.map(([run]) => run))
  return samples.filter(({ run }) => kept.has(run))
}
