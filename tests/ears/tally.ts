/** Counts what was heard of what was said. */
import { SAMPLE_RATE } from '../../src/core/ears/sound.ts'
import type { Heard, Spoken } from './listen-through.ts'

export interface Tally {
  readonly n: number
  readonly right: number
  readonly wrong: number
  readonly missed: number
  /** Among the missed: those that a question with the right words would have saved. */
  readonly asked: number
  /** Commands heard where none was said. */
  readonly falseAccepts: number
  readonly hours: number
  readonly latenciesMs: readonly number[]
  /** What was said, then what was heard; `(nothing)` is a miss. */
  readonly confusions: readonly (readonly [string, string])[]
}

const NOTHING = '(nothing)'

export function tallyOf(spoken: readonly Spoken[], heard: readonly Heard[], samples: number): Tally {
  const sure = heard.filter(({ kind }) => kind === 'sure')
  const within = (one: Heard, said: Spoken) => Math.min(one.end, said.end) > Math.max(one.start, said.start)
  const answers = spoken.map((said) => ({ said, answer: sure.find((one) => within(one, said)) }))
  const right = answers.filter(({ said, answer }) => answer?.words === said.label)
  const asked = answers.filter(
    ({ said, answer }) =>
      !answer && heard.some((one) => one.kind === 'unsure' && within(one, said) && one.words === said.label)
  )
  return {
    n: spoken.length,
    right: right.length,
    wrong: answers.filter(({ said, answer }) => answer && answer.words !== said.label).length,
    missed: answers.filter(({ answer }) => !answer).length,
    asked: asked.length,
    falseAccepts: sure.filter((one) => spoken.every((said) => !within(one, said))).length,
    hours: samples / SAMPLE_RATE / 3600,
    latenciesMs: right.flatMap(({ said, answer }) => (answer ? [answer.toldMs - (said.end / SAMPLE_RATE) * 1000] : [])),
    confusions: answers.map(({ said, answer }) => [said.label, answer?.words ?? NOTHING] as const)
  }
}

export function added(tallies: readonly Tally[]): Tally {
  const sum = (of: (tally: Tally) => number) => tallies.reduce((total, tally) => total + of(tally), 0)
  return {
    n: sum(({ n }) => n),
    right: sum(({ right }) => right),
    wrong: sum(({ wrong }) => wrong),
    missed: sum(({ missed }) => missed),
    asked: sum(({ asked }) => asked),
    falseAccepts: sum(({ falseAccepts }) => falseAccepts),
    hours: sum(({ hours }) => hours),
    latenciesMs: tallies.flatMap(({ latenciesMs }) => latenciesMs),
    confusions: tallies.flatMap(({ confusions }) => confusions)
  }
}

/** The value that 95 of 100 stay below; null for none. */
export function p95(values: readonly number[]): number | null {
  const sorted = values.toSorted((a, b) => a - b)
  return sorted[Math.min(sorted.length - 1, Math.floor(0.95 * sorted.length))] ?? null
}
