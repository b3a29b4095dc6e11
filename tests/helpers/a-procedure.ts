/** Small procedures for tests, written the way authors write them. */
import { layOut, type Course } from '../../src/core/procedure/course.ts'
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import { readProcedure } from '../../src/core/procedure/read-procedure.ts'

export function aProcedure(yamlText: string): Procedure {
  const read = readProcedure(yamlText)
  if (read.kind === 'faulty')
    throw new Error(read.problems.map(({ line, what, mend }) => `${line}: ${what} ${mend}`).join('\n'))
  return read.procedure
}

export function aCourse(stages: string, rest = ''): Course {
  return layOut(aProcedure(withHead(stages, rest)))
}

/** A head for tests that only care about the stages. */
export function withHead(stages: string, rest = ''): string {
  return `procedure: test-machine
title: Test
summary: Test
languages: [en]
machine: Test machine
sides:
  - {id: left, name: Left}
  - {id: right, name: Right}
${rest}
stages:
${stages}`
}

/** Two sides, a caution, a wait, a repeat, a tool, a barrier with a phrase, a reading, a count and a bench step. */
export const EVERYTHING = withHead(
  `  - stage: Rinse
    steps:
      - {step: fill, say: Fill the hopper., hands: 30 s, take: [pail]}
      - step: soak
        say: Start the beater.
        hands: 10 s
        cautions:
          - {signal: warning, hazard: The beater turns., consequence: It crushes fingers., avoid: Keep hands out.}
        wait: {for: agitation, at least: 5 min, source: Common practice}
      - {step: empty, say: Open the draw valve., hands: 40 s, free: [pail]}
      - step: clear
        say: Look at the rinse.
        hands: 5 s
        ask: {question: Is it clear?}
        again: {from: fill, at least: 2, at most: 4}
      - {step: scrub-bench, on: bench, say: Scrub the tray., hands: 1 min, wait: {for: dry, at least: 1 min, source: Common practice}}
  - stage: Power
    steps:
      - {step: power, on: whole machine, say: Switch the power off., hands: 10 s, confirm: power is off}
  - stage: Strip
    steps:
      - step: sanitize
        say: Pour in the sanitizer.
        hands: 20 s
        wait: {for: contact, at least: 1 min, at most: 3 min, source: Product label, late: {say: Pour it out and start again., redo: sanitize}}
      - step: strength
        say: Dip a strip.
        hands: 15 s
        read: {question: What does it read?, reading: strength, unit: ppm, at least: 100, at most: 200, source: Product label, if not: [Remix the sanitizer., Use a new strip.]}
      - step: pieces
        say: Lay the parts out.
        hands: 30 s
        count: {question: How many pieces?, parts: [seal, ring], if not: [Find the missing part.]}
      - {step: finish, on: whole machine, say: Close the door., hands: 10 s}`,
  `tools:
  - {id: pail, name: Pail}
parts:
  - {id: seal, name: Seal, per: side, count: 1, care: grease}
  - {id: ring, name: Ring, per: side, count: 3, care: dry}`
)

/** Two sides, a wait on each, a question with a reason and a detail, and a barrier with a phrase. */
export const SMALL = withHead(`  - stage: Clean
    steps:
      - step: fill
        say: Fill the hopper.
        hands: 30 s
        more: Fill it to the mark.
        why: Milk dries on what stays dry.
        wait: {for: soak, at least: 2 min, source: Common practice}
      - step: clear
        say: Draw a cup.
        hands: 10 s
        ask: {question: Is it clear?, if not: [Rinse it longer.]}
      - {step: power, on: whole machine, say: Switch the power on., hands: 10 s, confirm: hands are clear}`)
