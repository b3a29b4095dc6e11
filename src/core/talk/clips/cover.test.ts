import fc from 'fast-check'
import { expect, it, test } from 'vitest'
import { coverWithClips, knownClips } from './cover.ts'

const known = (...texts: readonly string[]) => knownClips(texts.map((text) => [text, text] as const))
const said = (text: string, ...texts: readonly string[]) =>
  coverWithClips(text, known(...texts))?.map(({ clip, pause }) => `${clip}|${pause}`) ?? null

test.each([
  ['Left. Close the valve.', ['Left.', 'Close the valve.'], ['Left.|long', 'Close the valve.|long']],
  ['left, close the VALVE', ['Left.', 'Close the valve.'], ['Left.|short', 'Close the valve.|none']],
  ['five minutes to go', ['five', 'minutes', 'to go', 'five minutes to go'], ['five minutes to go|none']],
  ['one two three', ['one two', 'two three', 'one', 'three'], ['one|none', 'two three|none']],
  ["six o'clock", ['six', "o'clock"], ['six|none', "o'clock|none"]],
  ['Close the door.', ['Close', 'door'], null],
  ['', ['Close'], []],
  ['…', ['Close'], []]
])('%s', (text, texts, expected) => {
  expect(said(text, ...texts)).toEqual(expected)
})

const anyWords = fc.array(fc.constantFrom('a', 'b', 'c'), { minLength: 1, maxLength: 7 })

/** Tries every way to cut. */
function fewest(words: readonly string[], texts: ReadonlySet<string>): number | null {
  if (words.length === 0) return 0
  const ways = words.flatMap((_, index) => {
    const rest = texts.has(words.slice(0, index + 1).join(' ')) ? fewest(words.slice(index + 1), texts) : null
    return rest === null ? [] : [rest + 1]
  })
  return ways.length === 0 ? null : Math.min(...ways)
}

it('says exactly the words of the text, in the fewest pieces there are', () => {
  fc.assert(
    fc.property(anyWords, fc.array(anyWords, { maxLength: 6 }), (words, clips) => {
      const texts = clips.map((clip) => clip.join(' '))
      const pieces = coverWithClips(words.join(' '), known(...texts))
      expect(pieces?.length ?? null).toBe(fewest(words, new Set(texts)))
      if (pieces) expect(pieces.map(({ clip }) => clip).join(' ')).toBe(words.join(' '))
    })
  )
})
