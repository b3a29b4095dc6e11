/** A sound procedure file that tests break in one place, and what its author is told then. */
import { expect } from 'vitest'
import { readProcedure } from '../../src/core/procedure/read-procedure.ts'

export const SOUND = `procedure: lemonade
title: Cleaning of two lines
summary: Rinses and soaks both lines.
languages: [en]
machine: Pair of lines
sides:
  - { id: left, name: Left }
  - { id: right, name: Right }
tools:
  - { id: pump, name: Pump }
  - { id: brush, name: Brush }
  - { id: pail, name: Pail }
parts:
  - { id: seal, name: Seal, per: side, count: 2, care: grease }
stages:
  - stage: Rinse
    steps:
      - step: fill
        say: Fill the line.
        hands: 20 s
      - step: soak
        say: Close the tap.
        hands: 10 s
        wait: { for: soak, at least: 5 min, source: Label }
      - step: look
        say: Look at the water.
        hands: 10 s
        ask: { question: Is it clear?, if not: [Rinse it.] }
      - step: power
        on: whole machine
        say: Turn the power on.
        hands: 10 s
      - step: strip
        say: Dip a strip.
        hands: 10 s
        read: { question: What is it?, reading: ph, unit: pH, at least: 6, at most: 8, source: Label, if not: [Rinse it.] }
      - step: parts
        on: bench
        say: Lay out the parts.
        hands: 10 s
        count: { question: How many?, parts: [seal], if not: [Find it.] }
`

/** The sound file with the first `old` (which must be there) replaced. */
export function broken(old: string, by: string): string {
  if (!SOUND.includes(old)) throw new Error(`"${old}" is not in the sound file`)
  return SOUND.replace(old, () => by)
}

/** What the author is told, as `line: what -> mend`. */
export function told(yamlText: string): readonly string[] {
  const read = readProcedure(yamlText)
  return read.kind === 'read' ? [] : read.problems.map(({ line, what, mend }) => `${line}: ${what} -> ${mend}`)
}

/** Rows of [what is broken, old text, new text, what is told]. Exactly this is told and nothing else. */
export type BrokenRow = readonly [name: string, old: string, by: string, told: string]

export function expectTold([, old, by, expected]: BrokenRow): void {
  expect(told(broken(old, by))).toEqual([expected])
}
