import { expect, it, test } from 'vitest'
import { broken, expectTold, told, type BrokenRow } from '../../../tests/helpers/faulty-procedure.ts'
import { authorFormat } from './author-format.ts'
import { EXAMPLES } from './examples.ts'

const PLACE = 'each side, bench, whole machine, the id of a side, or a list of ids of sides'
const ID = 'a short name in small letters, digits and hyphens that starts with a letter, such as rinse-cool'
const TIME = 'a time such as 20 s, 5 min or 1 h 30 min'
const LIST = 'Check its spelling and indentation, or take it out. procedures/README.md lists the keys.'

const rows: readonly BrokenRow[] = [
  [
    'a key that does not exist',
    'machine: Pair of lines',
    'machine: Pair of lines\ncolour: red',
    `6: "colour" is not a key that can be used here. -> ${LIST}`
  ],
  [
    'a key that does not exist in a step',
    'hands: 20 s',
    'hands: 20 s\n        colour: red',
    `21: Stage 1, step 1: "colour" is not a key that can be used here. -> ${LIST}`
  ],
  [
    'a key that is left out',
    'machine: Pair of lines\n',
    '',
    '1: "machine" is missing. -> Add it, for example machine: Freezer with two sides'
  ],
  [
    'a key of a step that is left out',
    '        hands: 20 s\n',
    '',
    '18: Stage 1, step 1: "hands" is missing. -> Add it, for example hands: 20 s'
  ],
  [
    'a key of a wait that is left out',
    ', source: Label }',
    ' }',
    '24: Stage 1, step 2: "wait", "source" is missing. -> Add it, for example source: Product label'
  ],
  [
    'a key without words',
    'title: Cleaning of two lines',
    'title:',
    '2: "title" is empty. -> Write words, or one entry a language.'
  ],
  ['words of no length', 'Fill the line.', "' '", '19: Stage 1, step 1: "say" is empty. -> Write words.'],
  [
    'a number for words',
    'Fill the line.',
    '7',
    `19: Stage 1, step 1: "say" is 7, which cannot be used. -> Write words, or one entry a language. Put it in quotes: '7'.`
  ],
  [
    'true for words',
    'Fill the line.',
    'true',
    `19: Stage 1, step 1: "say" is true, which cannot be used. -> Write words, or one entry a language. Put it in quotes: 'true'.`
  ],
  [
    'a list for words',
    'Fill the line.',
    '[Fill, Empty]',
    '19: Stage 1, step 1: "say" is a list. -> Write words or keys with values here, without hyphens or brackets around them.'
  ],
  [
    'words nobody could take in',
    'Fill the line.',
    'x'.repeat(601),
    '19: Stage 1, step 1: "say" has 601 letters. -> Use at most 600; what is longer nobody can hear or read at work.'
  ],
  [
    'a language that is no tag',
    'Fill the line.',
    '{ English: Fill the line. }',
    '19: Stage 1, step 1: "say" has the key "English". -> Use a language tag such as en or es.'
  ],
  [
    'words of a language that are a number',
    'Fill the line.',
    '{ en: 7 }',
    `19: Stage 1, step 1: "say", "en" is 7, which cannot be used. -> Write words. Put it in quotes: '7'.`
  ],
  [
    'a list of languages with no tag',
    '[en]',
    '[English]',
    '4: Language 1 is "English", which cannot be used. -> Write a language tag such as en or es.'
  ],
  ['no languages', '[en]', '[]', '4: "languages" is empty. -> Write at least one entry.'],
  ['a language instead of a list', '[en]', 'en', '4: "languages" is "en", which cannot be used. -> Write a list.'],
  ['an id with a capital', 'id: left', 'id: Left', `7: Side 1: "id" is "Left", which cannot be used. -> Write ${ID}.`],
  [
    'an id that is a number',
    'step: fill',
    'step: 1',
    `18: Stage 1, step 1: "step" is 1, which cannot be used. -> Write ${ID}.`
  ],
  [
    'an id that is too long',
    'step: fill',
    `step: ${'f'.repeat(65)}`,
    `18: Stage 1, step 1: "step" is "${'f'.repeat(40)}...", which cannot be used. -> Write ${ID}.`
  ],
  [
    'an id in a list',
    'parts: [seal]',
    'parts: [Seal]',
    `41: Stage 1, step 6: "count", "parts", entry 1 is "Seal", which cannot be used. -> Write ${ID}.`
  ],
  [
    'a time in other words',
    'hands: 20 s',
    'hands: 20 seconds',
    `20: Stage 1, step 1: "hands" is "20 seconds", which cannot be used. -> Write ${TIME}.`
  ],
  [
    'a time without a unit',
    'hands: 20 s',
    'hands: 20',
    `20: Stage 1, step 1: "hands" is 20, which cannot be used. -> Write ${TIME}.`
  ],
  [
    'a time in a wait',
    'at least: 5 min',
    'at least: five minutes',
    `24: Stage 1, step 2: "wait", "at least" is "five minutes", which cannot be used. -> Write ${TIME}.`
  ],
  [
    'a place that is none',
    'on: whole machine',
    'on: Whole machine',
    `30: Stage 1, step 4: "on" is "Whole machine", which cannot be used. -> Write ${PLACE}.`
  ],
  [
    'a place that is a number',
    'on: whole machine',
    'on: 2',
    `30: Stage 1, step 4: "on" is 2, which cannot be used. -> Write ${PLACE}.`
  ],
  [
    'a side in a list that has a capital',
    'on: whole machine',
    'on: [Left]',
    `30: Stage 1, step 4: "on", entry 1 is "Left", which cannot be used. -> Write the id of a side.`
  ],
  [
    'a wait for nothing known',
    'for: soak',
    'for: soaking',
    '24: Stage 1, step 2: "wait", "for" is "soaking", which cannot be used. -> Write one of: agitation, contact, soak, drain, dry, freeze, settle.'
  ],
  [
    'a wait that is only a time',
    '{ for: soak, at least: 5 min, source: Label }',
    '5 min',
    '24: Stage 1, step 2: "wait" is "5 min", which cannot be used. -> Write keys with values below it, indented by two spaces.'
  ],
  [
    'a wait that is a list',
    '{ for: soak, at least: 5 min, source: Label }',
    '[5 min]',
    '24: Stage 1, step 2: "wait" is a list. -> Write words or keys with values here, without hyphens or brackets around them.'
  ],
  [
    'a limit with its unit',
    'at least: 6',
    'at least: 6 pH',
    '36: Stage 1, step 5: "read", "at least" is "6 pH", which cannot be used. -> Write a number without quotes or a unit.'
  ],
  [
    'a count of half a thing',
    'count: 2',
    'count: 2.5',
    '14: Part 1: "count" is 2.5, which cannot be used. -> Write a whole number.'
  ],
  [
    'a count of nothing',
    'count: 2',
    'count: 0',
    '14: Part 1: "count" is 0, which cannot be used. -> Write a number of at least 1.'
  ],
  [
    'a count beyond belief',
    'count: 2',
    'count: 1000',
    '14: Part 1: "count" is 1000, which cannot be used. -> Write a number of at most 200.'
  ],
  [
    'corrections that are one text',
    'if not: [Find it.]',
    'if not: Find it.',
    '41: Stage 1, step 6: "count", "if not" is "Find it.", which cannot be used. -> Write a list.'
  ],
  [
    'too many corrections',
    'if not: [Find it.]',
    `if not: [${'Find it., '.repeat(13)}]`,
    '41: Stage 1, step 6: "count", "if not" has 13 entries. -> Use at most 12.'
  ],
  [
    'a step that is words',
    '      - step: fill\n        say: Fill the line.\n        hands: 20 s\n',
    '      - Fill the line.\n',
    '18: Stage 1, step 1 is "Fill the line.", which cannot be used. -> Write keys with values below it, indented by two spaces.'
  ],
  [
    'an answer that is true',
    'if not: [Rinse it.] }\n      - step: power',
    'expect: true, if not: [Rinse it.] }\n      - step: power',
    '28: Stage 1, step 3: "ask", "expect" is true, which cannot be used. -> Write one of: yes, no.'
  ]
]

test.each(rows)('%s', (...row) => expectTold(row))

it('says once that a stage has no steps, on the line of the key', () => {
  expect(
    told(
      broken('    steps:\n', '    steps: []\n')
        .slice(0, -1)
        .replace(/ {6}- step[^]*$/, '')
    )
  ).toEqual(['17: Stage 1: "steps" is empty. -> Write at least one entry.'])
})

it('has an example for every key that cannot be left out', () => {
  const required = new Set<string>()
  const look = (schema: unknown) => {
    if (schema === null || typeof schema !== 'object') return
    const { entries, ...others } = schema as { entries?: Record<string, { type: string }> }
    for (const [key, entry] of Object.entries(entries ?? {})) if (entry.type !== 'optional') required.add(key)
    for (const inner of [...Object.values(entries ?? {}), ...Object.values(others).flat()]) look(inner)
  }
  look(authorFormat)
  expect(required.size).toBeGreaterThan(25)
  expect([...required].filter((key) => EXAMPLES[key] === undefined)).toEqual([])
})
