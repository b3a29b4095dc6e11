import { describe, expect, it, test } from 'vitest'
import type { RefusalReason } from '../run/event.ts'
import { hear } from './hear.ts'
import { PLAIN_INTENTS } from './intent.ts'
import { tokens } from './tokens.ts'
import { aCourse } from '../../../tests/helpers/a-procedure.ts'
import { soundCheckEn } from './sound-check.en.ts'
import { vocabularyEn } from './vocabulary.en.ts'
import { wordsEn } from './words.en.ts'

describe('how long something takes', () => {
  test.each([
    [0, '0 seconds'],
    [-5, '0 seconds'],
    [1, '1 second'],
    [1000, '1 second'],
    [1001, '2 seconds'],
    [59_999, '1 minute'],
    [60_000, '1 minute'],
    [61_000, '1 minute 1 second'],
    [119_001, '2 minutes'],
    [300_000, '5 minutes'],
    [3_599_000, '59 minutes 59 seconds'],
    [3_599_001, '1 hour'],
    [3_600_000, '1 hour'],
    [3_600_001, '1 hour 1 minute'],
    [3_659_000, '1 hour 1 minute'],
    [7_199_000, '2 hours'],
    [5_400_000, '1 hour 30 minutes']
  ])('%i ms is "%s"', (ms, words) => {
    expect(wordsEn.duration(ms)).toBe(words)
  })

  it('never promises an end too early', () => {
    const UNITS: Readonly<Record<string, number>> = { second: 1, minute: 60, hour: 3600 }
    const secondsIn = (words: string) =>
      [...words.matchAll(/(\d+) (second|minute|hour)/g)].reduce(
        (sum, [, value, unit = '']) => sum + Number(value) * (UNITS[unit] ?? 0),
        0
      )
    for (let ms = 0; ms < 8_000_000; ms += 7919)
      expect(secondsIn(wordsEn.duration(ms)) * 1000).toBeGreaterThanOrEqual(ms)
  })
})

test.each([
  [59_000, '59 seconds'],
  [60_001, '1 minute 10 seconds'],
  [298_000, '5 minutes'],
  [291_000, '5 minutes'],
  [289_000, '4 minutes 50 seconds'],
  [600_001, '11 minutes'],
  [5_000_000, '1 hour 24 minutes']
])('%i ms left are told as "%s"', (ms, words) => {
  expect(wordsEn.timeLeft(ms)).toBe(words)
})

describe('what the operator is taught to say', () => {
  test.each(PLAIN_INTENTS)('is heard as %s', (intent) => {
    const course = aCourse('  - {stage: A, steps: [{step: a, say: Go., hands: 1 s}]}')
    const hearing = hear([wordsEn.phrase(intent)], vocabularyEn, {
      course,
      language: 'en',
      phrase: null,
      numbers: false,
      steps: false,
      yesNo: false
    })
    expect(hearing).toMatchObject({ kind: 'meant', intent: { type: intent } })
  })
})

describe('no prompt has a command in it', () => {
  const REASONS: readonly RefusalReason[] = [
    'wait-not-over',
    'needs-caution',
    'needs-confirmation',
    'needs-answer',
    'needs-correction',
    'lane-at-barrier',
    'tool-in-use',
    'lane-finished',
    'paused',
    'nothing-to-take-back',
    'not-asked',
    'unknown-lane',
    'wrong-kind-of-answer',
    'not-started',
    'run-over'
  ]
  /** Every sentence, with made-up words in its gaps. */
  const sentences: readonly (readonly [name: string, text: string])[] = [
    ...Object.entries(wordsEn)
      .filter(([name]) => !['list', 'phrase', 'refusal', 'notKept', 'answeredYesNo', 'which', 'help'].includes(name))
      .map(([name, say]): [string, string] => [
        name,
        typeof say === 'string' ? say : (say as (...gaps: unknown[]) => string)(...gapsOf(name))
      ]),
    ...Object.entries(wordsEn.notKept),
    ['check', soundCheckEn.ask],
    ['checkHeard', soundCheckEn.heard('xax')],
    ['checkNothing', soundCheckEn.nothing],
    ...REASONS.map((reason): [string, string] => [
      reason,
      wordsEn.refusal(reason, 'Xax', { left: '1 minute', phrase: 'xax', question: 'Xax?', tool: 'Xux', others: 'Xex' })
    ])
  ]
  function gapsOf(name: string): readonly unknown[] {
    if (name === 'duration') return [60_000]
    if (name === 'quantityIn') return ['Cel']
    if (name === 'wait') return ['contact']
    if (name === 'signal') return ['danger']
    if (name === 'correctionHint' || name === 'whichCorrection' || name === 'whichPart') return [['Xax.', 'Xux.']]
    if (name === 'notJudged') return ['Xax', 'Xux', ['xex', 'xox']]
    if (name === 'limits') return [1, 2, 'ppm']
    return ['Xax', 'Xux', 'Xex', 'Xox']
  }
  /** They teach the operator what to say at this moment. */
  const teaches: Readonly<Record<string, readonly string[]>> = {
    cautionHint: ['yes'],
    alarmHint: ['yes'],
    'needs-caution': ['yes'],
    askDone: ['all done', 'done'],
    correctionHint: ['put right'],
    problemHint: ['put right'],
    problemNoted: ['put right'],
    'needs-correction': ['put right'],
    correctedByVoice: ['put right'],
    paused: ['carry on', 'resume'],
    stepHint: ['go higher', 'come down', 'far more', 'much less', 'that is it'],
    // Not spoken as a sentence: its own answer.
    problem: ['problem'],
    full: ['again'],
    unavailable: ['again']
  }
  const commands = [
    ...Object.values(vocabularyEn.phrases).flat(),
    ...Object.values(vocabularyEn.steps).flat(),
    ...Object.keys(vocabularyEn.ambiguous),
    'left',
    'right',
    'bench',
    'machine'
  ]

  test.each(sentences)('%s: %s', (name, text) => {
    const said = ` ${tokens(text).join(' ')} `
    const found = commands.filter((command) => said.includes(` ${tokens(command).join(' ')} `))
    const allowed = teaches[name] ?? []
    expect(
      found.filter((command) => !allowed.some((phrase) => phrase === command || phrase.split(' ').includes(command)))
    ).toEqual([])
  })
})
