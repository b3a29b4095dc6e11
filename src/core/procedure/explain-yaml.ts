/** Says what is wrong with a file that is no YAML, in words for somebody who does not know YAML. */
import { isAlias, isNode, visit, type Document, type LineCounter, type YAMLParseError } from 'yaml'
import type { PlacedProblem } from './problem.ts'

interface Words {
  readonly what: string
  readonly mend: string
}

/** One slip upsets much of what follows it: the first few places are the ones to look at. */
const MOST_PROBLEMS = 5

const INDENTATION: Words = {
  what: 'This line is not indented like its neighbours.',
  mend: 'Give keys and hyphens that belong together the same number of spaces in front.'
}
const UNCLOSED: Words = {
  what: 'A bracket, a brace or a comma is missing here.',
  mend: 'Close what is opened with [ or {, and put commas between its entries.'
}
const UNQUOTED: Words = {
  what: 'A quote is opened and never closed.',
  mend: 'Look above this line for a quote without its partner.'
}

/** The first entry whose code and message fit. Some codes stand for slips that look nothing alike. */
const WORDS: readonly (readonly [code: YAMLParseError['code'], message: RegExp, words: Words])[] = [
  ['BAD_INDENT', /^Flow/, UNCLOSED],
  ['BLOCK_IN_FLOW', /./, UNCLOSED],
  ['BAD_INDENT', /./, INDENTATION],
  ['MISSING_CHAR', /indicator/, INDENTATION],
  ['MISSING_CHAR', /quote/, UNQUOTED],
  [
    'BLOCK_AS_IMPLICIT_KEY',
    /./,
    {
      what: 'There is a second colon in this text, or the next line begins too far to the right.',
      mend: 'Put a text with a colon and a space in it in quotes, or give the next line the spaces of its neighbours.'
    }
  ],
  [
    'MULTILINE_IMPLICIT_KEY',
    /./,
    {
      what: 'This is no key with a value.',
      mend: 'Write a key, a colon, a space and the value, and look for an unclosed quote in the line above.'
    }
  ],
  ['MULTIPLE_DOCS', /./, { what: 'A second file begins here, after ---.', mend: 'Keep one to a file.' }],
  ['TAB_AS_INDENT', /./, { what: 'There is a tab in front of this line.', mend: 'Indent with spaces only.' }],
  [
    'UNEXPECTED_TOKEN',
    /./,
    {
      what: 'Something stands where it cannot be understood.',
      mend: 'Put a text that begins with a brace, a quote or another sign in quotes as a whole.'
    }
  ],
  [
    'BAD_SCALAR_START',
    /./,
    { what: 'A text begins with a sign that has a meaning of its own.', mend: 'Put the text in quotes.' }
  ],
  [
    'BAD_DQ_ESCAPE',
    /./,
    {
      what: 'There is a backslash in a text in double quotes.',
      mend: 'Use single quotes, or take the backslash out.'
    }
  ]
]

const ANYTHING_ELSE: Words = {
  what: 'This cannot be read as YAML.',
  mend: 'Check the indentation, quotes and colons on this line and the one above.'
}

export function explainYaml(text: string, errors: readonly YAMLParseError[], lines: LineCounter): PlacedProblem[] {
  const first = new Map<number, PlacedProblem>()
  for (const error of errors) {
    const { line, col } = lines.linePos(error.pos[0])
    if (!first.has(line)) first.set(line, { line, column: col, ...wordsFor(text, error) })
  }
  return [...first.values()].slice(0, MOST_PROBLEMS)
}

function wordsFor(text: string, error: YAMLParseError): Words {
  if (error.code === 'DUPLICATE_KEY') {
    const key = /^[^:\n]*/.exec(text.slice(error.pos[0]))?.[0].trim() ?? ''
    return { what: `The key "${key}" stands here a second time.`, mend: 'Keep one of the two.' }
  }
  const found = WORDS.find(([code, message]) => code === error.code && message.test(error.message))
  return found?.[2] ?? ANYTHING_ELSE
}

/** Where the document uses anchors or aliases, or null. */
export function aliasProblem(document: Document.Parsed, lines: LineCounter): PlacedProblem | null {
  let start: number | null = null
  visit(document, {
    Node(_, node) {
      if (!isAlias(node) && node.anchor === undefined) return
      start = (isNode(node) ? node.range?.[0] : undefined) ?? 0
      return visit.BREAK
    }
  })
  if (start === null) return null
  const { line, col } = lines.linePos(start)
  return {
    line,
    column: col,
    what: 'There is a YAML anchor (&) or alias (*) here.',
    mend: 'Write the repeated part out. Put a text that begins with one of these signs in quotes.'
  }
}
