import { describe, expect, it, test } from 'vitest'
import { aProcedure, EVERYTHING } from '../../../tests/helpers/a-procedure.ts'
import { broken, expectTold, SOUND, told, type BrokenRow } from '../../../tests/helpers/faulty-procedure.ts'
import { readProcedure } from './read-procedure.ts'

it('reads a sound file', () => {
  expect(told(SOUND)).toEqual([])
})

it('fills in what the author left out', () => {
  const { stages, tools, sides } = aProcedure(EVERYTHING)
  const [fill, , , clear] = stages[0]?.steps ?? []
  expect(tools).toEqual([{ id: 'pail', name: { en: 'Pail' }, count: 1 }])
  expect(fill?.on).toEqual({ kind: 'sides', sides: sides.map(({ id }) => id) })
  expect(fill).toMatchObject({ more: null, why: null, confirm: null, wait: null, check: null, frees: [], cautions: [] })
  expect(clear?.check).toMatchObject({ good: 'yes', corrections: [] })
  expect(clear?.repeat).toEqual({ from: 'fill', atLeast: 2, atMost: 4 })
})

it('reads the same with the line ends of another system and with a byte order mark', () => {
  expect(readProcedure(`\uFEFF${SOUND.replaceAll('\n', '\r\n')}`)).toMatchObject({ procedure: aProcedure(SOUND) })
})

describe('a file that is no YAML', () => {
  const EMPTY =
    '1: The file is empty. -> Begin with procedure: and a short name, or copy one of the files in procedures/ and change it.'
  const rows: readonly BrokenRow[] = [
    [
      'a key twice',
      'summary: ',
      'title: Again\nsummary: ',
      '3: The key "title" stands here a second time. -> Keep one of the two.'
    ],
    [
      'a key twice in a step',
      '        hands: 20 s',
      '        hands: 20 s\n        say: Again.',
      '21: The key "say" stands here a second time. -> Keep one of the two.'
    ],
    ['a tab', '    steps:', '\tsteps:', '17: There is a tab in front of this line. -> Indent with spaces only.'],
    [
      'a second colon',
      'title: Cleaning',
      'title: Cleaning: all',
      '2: There is a second colon in this text, or the next line begins too far to the right. -> Put a text with a colon and a space in it in quotes, or give the next line the spaces of its neighbours.'
    ],
    [
      'no colon',
      'summary: Rinses',
      'summary Rinses',
      '3: This is no key with a value. -> Write a key, a colon, a space and the value, and look for an unclosed quote in the line above.'
    ],
    [
      'no comma',
      'id: left,',
      'id: left',
      '7: A bracket, a brace or a comma is missing here. -> Close what is opened with [ or {, and put commas between its entries.'
    ],
    [
      'an open bracket',
      '[en]',
      '[en',
      '5: A bracket, a brace or a comma is missing here. -> Close what is opened with [ or {, and put commas between its entries.'
    ],
    [
      'a backslash in double quotes',
      'Fill the line.',
      '"Fill \\line."',
      '19: There is a backslash in a text in double quotes. -> Use single quotes, or take the backslash out.'
    ],
    [
      'words after a brace',
      'Fill the line.',
      '{7.6 L | 2 gal} go in.',
      '19: Something stands where it cannot be understood. -> Put a text that begins with a brace, a quote or another sign in quotes as a whole.'
    ],
    [
      'a line that is out of its column',
      '        say: Fill the line.',
      '       say: Fill the line.',
      '19: This line is not indented like its neighbours. -> Give keys and hyphens that belong together the same number of spaces in front.'
    ],
    [
      'a sign in front',
      'Label',
      '@label',
      '24: A text begins with a sign that has a meaning of its own. -> Put the text in quotes.'
    ],
    ['two files in one', 'stages:', '---\nstages:', '15: A second file begins here, after ---. -> Keep one to a file.'],
    [
      'an alias',
      'Cleaning of two lines\n',
      '&t Cleaning\n',
      '2: There is a YAML anchor (&) or alias (*) here. -> Write the repeated part out. Put a text that begins with one of these signs in quotes.'
    ],
    [
      'an alias of nothing',
      'Cleaning of two lines\n',
      '*t\n',
      '2: There is a YAML anchor (&) or alias (*) here. -> Write the repeated part out. Put a text that begins with one of these signs in quotes.'
    ]
  ]
  test.each(rows)('%s', (...row) => expectTold(row))

  it('names the unclosed quote first', () => {
    expect(told(broken('Fill the line.', '"Fill the line.'))[0]).toBe(
      '42: A quote is opened and never closed. -> Look above this line for a quote without its partner.'
    )
  })

  test.each([
    ['nothing', ''],
    ['a comment only', '# later\n'],
    ['null', '~\n']
  ])('%s', (_, text) => expect(told(text)).toEqual([EMPTY]))

  it('has words but no keys', () => {
    expect(told('Clean the freezer.')).toEqual([
      '1: The file has no keys. -> Begin with procedure: and a short name, or copy one of the files in procedures/ and change it.'
    ])
  })

  it('has a list at the top', () => {
    expect(told('- procedure: lemonade\n- title: Cleaning\n')).toEqual([
      '1: The file is a list. -> Write words or keys with values here, without hyphens or brackets around them.'
    ])
  })

  it('is longer than a procedure can be', () => {
    expect(told(`${SOUND}#${'x'.repeat(1_000_000)}`)).toEqual([
      'null: The file is larger than 1 MB. -> Split it into several procedures.'
    ])
    expect(told(SOUND.padEnd(1_000_000, '#'))).toEqual([])
  })

  it('has aliases that would grow to a billion words', () => {
    const names = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i']
    const ten = (of: string) => `[${Array.from({ length: 10 }, () => of).join(', ')}]`
    const lines = names.map((name, index) => `${name}: &${name} ${ten(index === 0 ? 'x' : `*${names[index - 1]}`)}`)
    expect(told(lines.join('\n'))).toHaveLength(1)
  })

  it.each(['[', '{a: ', '- '])('is nested without end: %s', (open) => {
    const problems = told(open.repeat(20_000))
    expect(problems.length).toBeGreaterThan(0)
    expect(problems.length).toBeLessThanOrEqual(5)
  })
})

it('tells every problem of a file at once, each on its own line', () => {
  const text = broken('Fill the line.', '7').replace('hands: 10 s', 'hands: 10').replace('reading: ph', 'reading: pH')
  expect(told(text)).toEqual([
    `19: Stage 1, step 1: "say" is 7, which cannot be used. -> Write words, or one entry a language. Put it in quotes: '7'.`,
    '23: Stage 1, step 2: "hands" is 10, which cannot be used. -> Write a time such as 20 s, 5 min or 1 h 30 min.',
    '36: Stage 1, step 5: "read", "reading" is "pH", which cannot be used. -> Write one of: strength, temperature, ph.'
  ])
})
