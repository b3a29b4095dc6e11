/** Whatever is said in a run has its clips, save what somebody typed. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { aCourse } from '../../../../tests/helpers/a-procedure.ts'
import { anyProcedure } from '../../../../tests/helpers/any-procedure.ts'
import { startTalk, type Talk } from '../../../../tests/helpers/spoken-script.ts'
import { layOut, type Course } from '../../procedure/course.ts'
import { PLAIN_INTENTS, type Intent } from '../intent.ts'
import { speakableEn } from '../spoken/english.ts'
import { wordsEn } from '../words.en.ts'
import { coverWithClips, knownClips } from './cover.ts'
import { sayable } from './sayable.ts'

function clipsOf(course: Course) {
  const { own, shared } = sayable(course, { language: 'en', words: wordsEn }, speakableEn)
  return knownClips([...own, ...shared].map((text) => [text, text] as const))
}

function uncovered(course: Course, talk: Talk): readonly string[] {
  const known = clipsOf(course)
  return talk
    .transcript()
    .map((line) => line.replace(/^Sidecall: /, ''))
    .filter((line) => coverWithClips(speakableEn(line), known) === null)
}

const COURSE = aCourse(`
  - stage: A
    steps:
      - {step: fill, on: each side, say: "Fill in {7.6 L | 2 gal}.", hands: 20 s, more: Slowly. Up to the line., why: It must cover all.}
      - {step: soak, on: left, say: Soak it., hands: 5 s, wait: {for: soak, at least: 5 min, source: Ours}}
`)

describe('the pieces', () => {
  it("hold each sentence of the author's once, in both systems of units", () => {
    const { own } = sayable(COURSE, { language: 'en', words: wordsEn }, speakableEn)
    expect(own).toEqual([
      'Fill in seven point six liters.',
      'Slowly.',
      'Up to the line.',
      'It must cover all.',
      'Soak it.',
      'Fill in two gallons.'
    ])
  })

  it('change by one sentence where one sentence of one step changes', () => {
    const steps = (say: string) =>
      `  - {stage: A, steps: [{step: one, on: left, say: ${say}, hands: 5 s}, {step: two, on: right, say: Dry it., hands: 5 s}]}`
    const piecesOf = (say: string) => {
      const { own, shared } = sayable(aCourse(steps(say)), { language: 'en', words: wordsEn }, speakableEn)
      return new Set([...own, ...shared])
    }
    const [before, after] = [piecesOf('Wash it.'), piecesOf('Rinse it.')]
    expect([...after].filter((piece) => !before.has(piece))).toEqual(['Rinse it.'])
  })

  it('leave no figure and nothing open', () => {
    const { own, shared } = sayable(COURSE, { language: 'en', words: wordsEn }, speakableEn)
    expect([...own, ...shared].filter((piece) => /[\d§]|NaN|undefined/.test(piece))).toEqual([])
  })
})

const anyIntent: fc.Arbitrary<Intent> = fc.oneof(
  fc.constantFrom(...PLAIN_INTENTS).map((type): Intent => ({ type })),
  fc.constantFrom<Intent>({ type: 'held' }, { type: 'phrase' }, { type: 'lane', lane: 'right' }),
  fc.integer({ min: 0, max: 300 }).map((value): Intent => ({ type: 'number', value, unit: null }))
)

it('cover every line of any run', () => {
  fc.assert(
    fc.property(
      anyProcedure,
      fc.array(fc.oneof(anyIntent, fc.integer({ min: 1, max: 700 })), { maxLength: 60 }),
      (procedure, happenings) => {
        const course = layOut(procedure)
        const talk = startTalk(course)
        talk.open()
        for (const happening of happenings) {
          if (typeof happening === 'number') talk.pass(happening)
          else talk.intend(happening)
        }
        expect(uncovered(course, talk)).toEqual([])
      }
    ),
    { numRuns: 150 }
  )
})
