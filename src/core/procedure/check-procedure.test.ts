import { describe, expect, it, test } from 'vitest'
import { withHead } from '../../../tests/helpers/a-procedure.ts'
import { broken, expectTold, told, type BrokenRow } from '../../../tests/helpers/faulty-procedure.ts'
import { readProcedure } from './read-procedure.ts'

const FILL = '        hands: 20 s'
const fill = (lines: string) => `        hands: 20 s\n        ${lines}`

describe('ids, names and languages', () => {
  const rows: readonly BrokenRow[] = [
    ['a side twice', 'id: right', 'id: left', '8: The id "left" is used twice. -> Give one of them another id.'],
    ['a tool twice', 'id: brush', 'id: pump', '11: The id "pump" is used twice. -> Give one of them another id.'],
    ['a step twice', 'step: parts', 'step: fill', '37: The id "fill" is used twice. -> Give one of them another id.'],
    [
      'a side with the id of a shared place',
      'id: left',
      'id: bench',
      '7: "bench" cannot be the id of a side: it is the name of a shared place. -> Choose another id.'
    ],
    [
      'two sides that are called the same',
      'name: Right',
      'name: left',
      '8: Two sides have the name "left". -> Give each side a name of its own.'
    ],
    ['a language twice', '[en]', '[en, en]', '4: The language en is named twice. -> Name it once.'],
    [
      'an amount in one system',
      'Fill the line.',
      "'Fill in {7.6 L}.'",
      '19: An amount in braces is not written in two systems. -> Write it metric first, such as {7.6 L | 2 gal}, or without braces.'
    ]
  ]
  test.each(rows)('%s', (...row) => expectTold(row))

  it('wants every text in every language', () => {
    const problems = told(broken('[en]', '[en, es]'))
    expect(problems).toContain(
      '2: These words are missing in es. -> Write the text as one entry a language, or take the language out of "languages".'
    )
    // Once a line. Title, summary, machine, sides, tools, parts, stage, and in the steps: say, source, question and corrections.
    expect(problems.map((problem) => Number(problem.split(':')[0]))).toEqual([
      2, 3, 5, 7, 8, 10, 11, 12, 14, 16, 19, 22, 24, 26, 28, 31, 34, 36, 39, 41
    ])
  })

  it('takes words in a language that is not listed yet', () => {
    expect(told(broken('Fill the line.', '{ en: Fill the line., es: Llene la línea. }'))).toEqual([])
  })

  it('takes texts in two languages', () => {
    const both = withHead('  - {stage: {en: A, es: A}, steps: [{step: a, say: {en: Go., es: Vaya.}, hands: 1 s}]}')
      .replace('[en]', '[en, es]')
      .replaceAll(/^(title|summary|machine): (.*)$/gm, '$1: {en: $2, es: $2}')
      .replaceAll(/name: (\w+)/g, 'name: {en: $1, es: $1 E}')
    expect(told(both)).toEqual([])
  })
})

describe('a step', () => {
  const rows: readonly BrokenRow[] = [
    [
      'on a side that is none',
      FILL,
      fill('on: middle'),
      '21: Step "fill" is on "middle", which is no side of this machine. -> Use each side, bench, whole machine, or one of: left, right.'
    ],
    ['on a side twice', FILL, fill('on: [left, left]'), '21: Step "fill" names "left" twice. -> Name it once.'],
    [
      'with two checks',
      '        ask: { question: Is it clear?',
      '        count: { question: How many?, parts: [seal], if not: [Find it.] }\n        ask: { question: Is it clear?',
      '28: Step "look" has more than one of ask, read and count. -> Give each its own step.'
    ],
    [
      'that repeats and asks nothing',
      FILL,
      fill('again: { from: fill, at most: 2 }'),
      '21: Step "fill" repeats but asks nothing. -> Add an ask: with the question that ends the repeating.'
    ],
    [
      'that repeats at least more than at most',
      ', if not: [Rinse it.] }',
      ' }\n        again: { from: fill, at least: 3, at most: 2 }',
      '29: Step "look" must repeat more often than it may. -> Make "at most" as large as "at least", or larger.'
    ],
    [
      'with a question and no way on',
      ', if not: [Rinse it.] }',
      ' }',
      '28: Step "look" asks a question but says nothing about a bad answer. -> Add "if not" with what to do, or "again" to go back and repeat.'
    ],
    [
      'with a phrase and a check',
      '        ask: {',
      '        confirm: water is off\n        ask: {',
      '28: Step "look" has both a confirming phrase and a check. -> Put the check in a step of its own after it.'
    ],
    [
      'with an everyday phrase',
      FILL,
      fill('confirm: All done!'),
      '21: The confirming phrase of step "fill" is "All done!", which is said at other steps too. -> Use two words or more that say what makes it safe, such as power is off.'
    ],
    [
      'with an everyday word and filler for a phrase',
      FILL,
      fill('confirm: okay next please'),
      '21: The confirming phrase of step "fill" is "okay next please", which is said at other steps too. -> Use two words or more that say what makes it safe, such as power is off.'
    ],
    [
      'with one word for a phrase',
      FILL,
      fill('confirm: unplugged'),
      '21: The confirming phrase of step "fill" is "unplugged", which is said at other steps too. -> Use two words or more that say what makes it safe, such as power is off.'
    ],
    [
      'that takes no time',
      'hands: 20 s',
      'hands: 0 s',
      '20: Step "fill" gives no time for the hands. -> Say about how long it takes, such as 10 s.'
    ],
    [
      'that takes a day',
      'hands: 20 s',
      'hands: 20 h',
      '20: Step "fill" keeps the hands busy for more than 8 hours. -> Check the number and its unit.'
    ],
    [
      'with a wait of no length',
      'at least: 5 min,',
      'at least: 0 min,',
      '24: The wait of step "soak" has no length. -> Give it a time above zero, or take the wait out.'
    ],
    [
      'with its longest wait the shorter one',
      'at least: 5 min,',
      'at least: 5 min, at most: 4 min,',
      '24: The longest wait of step "soak" is shorter than its shortest. -> Make "at most" the longer one.'
    ],
    [
      'with a wait beyond belief',
      'at least: 5 min,',
      'at least: 500 h,',
      '24: The wait of step "soak" is longer than a week. -> Check the numbers and their units.'
    ],
    [
      'that can be late without a longest time',
      'source: Label }',
      'source: Label, late: { say: Start again., redo: fill } }',
      '24: Step "soak" says what to do when late, but has no longest time. -> Add "at most".'
    ],
    [
      'with a unit that does not fit',
      'unit: pH',
      'unit: ppm',
      '36: Step "strip" reads a pH in a unit that does not fit. -> Use ppm for strength, C or F for temperature, pH for ph.'
    ],
    [
      'with a reading and no limit',
      ', at least: 6, at most: 8',
      '',
      '36: Step "strip" takes a reading but gives no limit. -> Add "at least", "at most" or both.'
    ],
    [
      'with its limits swapped',
      'at least: 6, at most: 8',
      'at least: 8, at most: 6',
      '36: Step "strip" allows no reading: its lowest is above its highest. -> Swap or mend the two limits.'
    ],
    [
      'with a limit without end',
      'at most: 8',
      'at most: .inf',
      '36: Step "strip" has a limit that is no number. -> Write an ordinary number, or leave that limit out.'
    ],
    [
      'that takes a tool nobody has',
      FILL,
      fill('take: [hose]'),
      '21: Step "fill" names "hose", which is not in the list of tools. -> Add it to tools, or check the spelling.'
    ],
    [
      'that counts a part nobody has',
      'parts: [seal]',
      'parts: [seal, ring]',
      '41: Step "parts" names "ring", which is not in the list of parts. -> Add it to parts, or check the spelling.'
    ],
    [
      'that counts a part twice',
      'parts: [seal]',
      'parts: [seal, seal]',
      '41: Step "parts" names "seal" twice. -> Name it once.'
    ]
  ].map((row) => row as unknown as BrokenRow)
  test.each(rows)('%s', (...row) => {
    // A tool that is not there is missed when it is freed, too; the first thing told is the one that matters.
    const [, old, by, expected] = row
    expect(told(broken(old, by))[0]).toBe(expected)
  })

  it('may have the same limit twice, and one alone', () => {
    expect(told(broken('at least: 6, at most: 8', 'at least: 7, at most: 7'))).toEqual([])
    expect(told(broken('at least: 6, at most: 8', 'at most: 8'))).toEqual([])
    expect(told(broken('at least: 5 min,', 'at least: 5 min, at most: 5 min,'))).toEqual([])
  })

  it('reads unit codes for the program', () => {
    const read = readProcedure(broken('reading: ph, unit: pH', 'reading: temperature, unit: F'))
    const step = read.kind === 'read' ? read.procedure.stages[0]?.steps[4] : null
    expect(step?.check).toMatchObject({ unit: '[degF]', min: 6, max: 8 })
  })
})
