/** Numbers told in steps, as ears that know few words hear them. */
import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { aCourse } from '../../../tests/helpers/a-procedure.ts'
import { METRIC, startTalk, type Talk } from '../../../tests/helpers/spoken-script.ts'
import { fewWords } from './few-words.ts'
import { NUMBER_STEPS } from './intent.ts'
import { phrasesNow, spokenPhrases } from './spoken-phrases.ts'
import { stepsAt } from './stepping.ts'
import { vocabularyEn } from './vocabulary.en.ts'

const read = (what: string, unit: string, limits: string) =>
  `read: {question: What is it?, reading: ${what}, unit: ${unit}, ${limits}, source: Ours, if not: [Mix.]}`
const course = (check: string) =>
  aCourse(
    `  - stage: A
    steps:
      - {step: one, on: left, say: Look at it., hands: 5 s, ${check}}
      - {step: two, on: left, say: Look once more., hands: 5 s, ${check}}`,
    'parts: [{id: seal, name: Seal, per: side, count: 11, care: grease}]'
  )
const PPM = course(read('strength', 'ppm', 'at least: 100, at most: 200'))
const WEAK = course(read('strength', 'ppm', 'at least: 12, at most: 25'))
const CELSIUS = course(read('temperature', 'C', 'at least: 24'))
const PH = course(read('ph', 'pH', 'at least: 6, at most: 8'))
const COUNT = course('count: {question: How many?, parts: [seal], if not: [Find it.]}')

const stepped = (what: ReturnType<typeof course>) => {
  const talk = startTalk(what, { ...METRIC, fewWords })
  talk.open()
  return talk
}
function hearAll(talk: Talk, words: readonly string[]): readonly string[] {
  const before = talk.transcript().length
  for (const each of words) talk.hearWords(each)
  return talk
    .transcript()
    .slice(before)
    .map((line) => line.replace('Sidecall: ', ''))
}
const recorded = (talk: Talk) =>
  talk.events().flatMap((event) => (event.type === 'check-answered' ? [event.answer] : []))

test('it says where it begins, each step, and the whole once more before it counts', () => {
  const talk = stepped(PPM)
  expect(talk.transcript().at(-1)).toBe('Sidecall: I begin at 150 ppm.')
  expect(hearAll(talk, ['far more', 'go higher', 'come down', 'that is it'])).toEqual([
    '200 ppm.',
    '210 ppm.',
    '200 ppm.',
    '200 ppm. Is that so?'
  ])
  expect(recorded(talk)).toEqual([])
  talk.hearWords('yes')
  expect(recorded(talk)).toEqual([{ kind: 'reading', value: 200, unit: '[ppm]' }])
})

describe('steps go by what strips and thermometers tell apart', () => {
  test.each([
    ['weak solutions', WEAK, ['come down', 'far more', 'that is it'], 'reading', 23, '[ppm]'],
    ['pH in tenths', PH, ['much less', 'come down', 'that is it'], 'reading', 6.4, '[pH]'],
    ['degrees', CELSIUS, ['far more', 'go higher', 'that is it'], 'reading', 30, 'Cel'],
    ['the other scale', CELSIUS, ['other scale', 'go higher', 'that is it'], 'reading', 76, '[degF]']
  ] as const)('%s', (_, what, words, kind, value, unit) => {
    const talk = stepped(what)
    hearAll(talk, [...words, 'yes'])
    expect(recorded(talk)).toEqual([{ kind, value, unit }])
  })
})

test('a count begins at nothing, so that no part is counted that was only expected', () => {
  const talk = stepped(COUNT)
  expect(talk.transcript().at(-1)).toBe('Sidecall: I begin at 0.')
  hearAll(talk, ['far more', 'go higher', 'that is it', 'yes'])
  expect(recorded(talk)).toEqual([{ kind: 'count', value: 11 }])
})

test('the next reading of the kind begins at the last', () => {
  const talk = stepped(PPM)
  hearAll(talk, ['go higher', 'that is it', 'yes'])
  expect(hearAll(talk, ['that is it'])).toEqual(['160 ppm. Is that so?'])
})

describe('what was wrong is mended', () => {
  test('by no, and steps from there', () => {
    const talk = stepped(PPM)
    expect(hearAll(talk, ['far more', 'that is it', 'no'])).toEqual([
      '200 ppm.',
      '200 ppm. Is that so?',
      'What is the number?'
    ])
    hearAll(talk, ['come down', 'that is it', 'yes'])
    expect(recorded(talk)).toEqual([{ kind: 'reading', value: 190, unit: '[ppm]' }])
  })
  test('by a step in place of the answer', () => {
    const talk = stepped(PPM)
    hearAll(talk, ['that is it', 'go higher', 'that is it', 'yes'])
    expect(recorded(talk)).toEqual([{ kind: 'reading', value: 160, unit: '[ppm]' }])
  })
  test('a question in between does not lose the number', () => {
    const talk = stepped(PPM)
    hearAll(talk, ['far more', 'why', 'say again', 'go higher', 'that is it', 'yes'])
    expect(recorded(talk)).toEqual([{ kind: 'reading', value: 210, unit: '[ppm]' }])
  })
})

test('to ears that know every word numbers are told as such, and "that is it" is a yes', () => {
  const talk = startTalk(PPM)
  talk.open()
  expect(talk.transcript().at(-1)).toBe('Sidecall: What is it?')
  expect(hearAll(talk, ['one sixty'])).toEqual(['160 ppm. Is that so?'])
  talk.hearWords("that's it")
  expect(recorded(talk)).toEqual([{ kind: 'reading', value: 160, unit: '[ppm]' }])
})

test('where no number is asked for, steps mean nothing', () => {
  const talk = stepped(aCourse('  - {stage: A, steps: [{step: one, on: left, say: Look at it., hands: 5 s}]}'))
  hearAll(talk, ['go higher', 'that is it'])
  expect(recorded(talk)).toEqual([])
  talk.intend({ type: 'number-step', step: 'that-is-it' })
  expect(recorded(talk)).toEqual([])
})

test('only a number that is asked for makes its steps valid', () => {
  const talk = stepped(PPM)
  const now = phrasesNow(talk.call(), { yesNo: false, phrase: null }, vocabularyEn)
  expect(now).toEqual(expect.arrayContaining(['go higher', 'come down', 'far more', 'much less', 'that is it']))
  // A strength has no other scale.
  expect(now).not.toContain('other scale')
  expect(stepsAt(stepped(CELSIUS).call())).toContain('other-scale')
  hearAll(talk, ['that is it', 'yes', 'that is it', 'yes'])
  expect(phrasesNow(talk.call(), { yesNo: false, phrase: null }, vocabularyEn)).not.toContain('go higher')
  for (const step of NUMBER_STEPS) expect(spokenPhrases(vocabularyEn)).toContain(vocabularyEn.steps[step][0])
})

it('never leaves what can be, and no steps alone put anything on record', () => {
  const words = NUMBER_STEPS.map((step) => vocabularyEn.steps[step][0] ?? '')
  fc.assert(
    fc.property(
      fc.constantFrom(PPM, WEAK, CELSIUS, PH, COUNT),
      fc.array(fc.constantFrom(...words, 'no', 'why'), { maxLength: 60 }),
      (what, said) => {
        const talk = stepped(what)
        const lines = hearAll(talk, said)
        expect(recorded(talk)).toEqual([])
        expect(lines.filter((line) => /cannot be|NaN|\d\.\d{2}/.test(line))).toEqual([])
      }
    )
  )
})

describe('a number that was told on one side, with the hands called to the other', () => {
  const BOTH = aCourse(
    `  - {stage: A, steps: [{step: one, say: Look at it., hands: 5 s, ${read('strength', 'ppm', 'at least: 100, at most: 200')}}]}`
  )
  test.each([
    ['read back', ['far more', 'that is it'], 'yes'],
    ['in steps', ['far more'], 'that is it'],
    ['told whole', ['one eighty'], 'yes']
  ])('%s, is no answer there', (_, before, after) => {
    const talk = stepped(BOTH)
    hearAll(talk, before)
    talk.carryOut({ type: 'choose-lane', lane: 'right' })
    talk.hearWords(after)
    expect(recorded(talk)).toEqual([])
    expect(talk.call()).toMatchObject({ kind: 'step', lane: 'right' })
    hearAll(talk, ['go higher', 'that is it', 'yes'])
    expect(recorded(talk)).toEqual([{ kind: 'reading', value: 160, unit: '[ppm]' }])
  })
})
