/** What stands beside a call on the screen: hints, limits, sources. The spoken words are in the scripts. */
import { describe, expect, it, test } from 'vitest'
import { aCourse, aProcedure, EVERYTHING } from '../../../tests/helpers/a-procedure.ts'
import { METRIC, startTalk } from '../../../tests/helpers/spoken-script.ts'
import { FIRST_HANDS } from '../run/run.ts'
import { layOut, type Course } from '../procedure/course.ts'
import { callWords } from './call-words.ts'

const EVERY_COURSE = layOut(aProcedure(EVERYTHING))

function shownAt(course: Course, from: string, act: (talk: ReturnType<typeof startTalk>) => void = () => undefined) {
  const talk = startTalk(course)
  talk.workUpTo(from)
  act(talk)
  const told = { course, run: talk.run(), at: 0, manner: METRIC, device: FIRST_HANDS, outlook: null }
  const { lane, headline, hints } = callWords(told, talk.call(), false)
  return { lane, headline, hints }
}

test.each([
  ['left fill', { lane: 'Left', headline: 'Fill the hopper.', hints: [] }],
  [
    'left soak',
    {
      lane: 'Left',
      headline: 'Warning. The beater turns. It crushes fingers. Keep hands out.',
      hints: ['Answer yes when you understand.']
    }
  ],
  ['left clear', { lane: 'Left', headline: 'Look at the rinse.', hints: ['Is it clear?', 'Round 1 of 4 at most.'] }],
  [
    'machine power',
    {
      lane: 'Whole machine',
      headline: 'Switch the power off.',
      hints: ['When it is so, tell me: power is off. Or hold the button down.']
    }
  ],
  [
    'left strength',
    {
      lane: 'Left',
      headline: 'Dip a strip.',
      hints: ['What does it read?', 'Allowed: 100 to 200 ppm. Source: Product label.']
    }
  ],
  [
    'left pieces',
    {
      lane: 'Left',
      headline: 'Lay the parts out.',
      hints: ['How many pieces?', 'There should be 4.', 'Seal: 1, Ring: 3']
    }
  ]
])('%s', (from, shown) => {
  expect(shownAt(EVERY_COURSE, from)).toEqual(shown)
})

it('says what was out of limits, and what may be done', () => {
  const bad = shownAt(EVERY_COURSE, 'left strength', (talk) => {
    talk.hearWords('250')
    talk.hearWords('yes')
  })
  expect(bad).toEqual({
    lane: 'Left',
    headline: 'Left. Out of limits: 250 ppm.',
    hints: ['Remix the sanitizer. Or: Use a new strip. Then tell me: put right.']
  })
})

describe('limits', () => {
  const reading = (limits: string, unit = 'unit: pH, reading: ph') =>
    shownAt(
      aCourse(`  - stage: A
    steps: [{step: dip, say: Dip a strip., hands: 5 s, read: {question: What is it?, ${unit}, ${limits}, source: Label, if not: [Again.]}}]`),
      'left dip'
    ).hints.at(-1)

  test.each([
    ['at least: 6.5', 'Allowed: 6.5 pH or more. Source: Label.'],
    ['at most: 8', 'Allowed: 8 pH or less. Source: Label.'],
    ['at least: 6, at most: 8', 'Allowed: 6 to 8 pH. Source: Label.']
  ])('%s', (limits, hint) => {
    expect(reading(limits)).toBe(hint)
  })

  it('shows temperatures with their sign', () => {
    expect(reading('at most: 5', 'unit: C, reading: temperature')).toBe('Allowed: 5 °C or less. Source: Label.')
  })
})

it('counts the pieces of every side at the bench and at the whole machine', () => {
  const count = (on: string) =>
    shownAt(
      aCourse(
        `  - {stage: A, steps: [{step: lay, on: ${on}, say: Lay them out., hands: 5 s, count: {question: How many?, parts: [seal, cap], if not: [Find it.]}}]}`,
        'parts: [{id: seal, name: Seal, per: side, count: 3, care: grease}, {id: cap, name: Cap, per: machine, count: 1, care: dry}]'
      ),
      `${on === 'whole machine' ? 'machine' : on} lay`
    ).hints.slice(-2)
  expect([count('left'), count('bench'), count('whole machine')]).toEqual([
    ['There should be 4.', 'Seal: 3, Cap: 1'],
    ['There should be 7.', 'Seal: 6, Cap: 1'],
    ['There should be 7.', 'Seal: 6, Cap: 1']
  ])
})

it('says how long an alarm has been ringing, in whole minutes', () => {
  const talk = startTalk(EVERY_COURSE)
  talk.workUpTo('left soak')
  talk.hearWords('yes')
  talk.hearWords('all done')
  const due = talk.run().lanes['left']?.waiting?.due ?? 0
  const told = (over: number) => ({
    course: EVERY_COURSE,
    run: talk.run(),
    at: due + over,
    manner: METRIC,
    device: FIRST_HANDS,
    outlook: null
  })
  talk.pass(300)
  const headline = (over: number) => callWords(told(over), talk.call(), false).headline
  expect([0, 59_999, 60_000, 150_000].map(headline)).toEqual([
    'Left. Mixing time is over.',
    'Left. Mixing time is over.',
    'Left. Mixing time was over 1 minute ago.',
    'Left. Mixing time was over 2 minutes ago.'
  ])
})

it('says what to find out when something is late and the author left no words', () => {
  const course = aCourse(`  - stage: A
    steps:
      - {step: soak, on: left, say: Soak it., hands: 5 s, wait: {for: soak, at least: 1 min, at most: 2 min, source: Label}}
      - {step: drain, on: left, say: Drain it., hands: 5 s}`)
  const late = shownAt(course, 'left drain', (talk) => talk.pass(71))
  expect(late).toEqual({
    lane: 'Left',
    headline: 'Left. Soaking time took too long.',
    hints: ['Find out whether it can still be used, and mend it. Then tell me: put right.']
  })
})
