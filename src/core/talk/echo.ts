/** The app must not obey itself: words that repeat the end of what it just said are its own sound coming back. */
import { tokens } from './tokens.ts'

const OVERLAP = 0.6
/**
 * The ears open after the sound has ended, so only its end can still be on its way, in a slow loudspeaker or a large
 * room. Words that were said further back are an operator who says them after us, as they were asked to.
 */
const STILL_ON_ITS_WAY = 3

/** `said` is what was said lately, as written and as spoken: a recogniser writes numbers either way. */
export function isEcho(heard: string, said: readonly string[]): boolean {
  const words = tokens(heard)
  if (words.length < 2) return false
  return said.some((text) => isIn(words, tokens(text).slice(-words.length - STILL_ON_ITS_WAY)))
}

/** The words in their order with hardly anything between: "hold on" is not in "hold the lid, put it on". */
function isIn(words: readonly string[], end: readonly string[]): boolean {
  const width = words.length + Math.floor(words.length / 4)
  return end.some((_, from) => inOrder(words, end.slice(from, from + width)) / words.length >= OVERLAP)
}

/** Length of the longest common subsequence. */
function inOrder(some: readonly string[], others: readonly string[]): number {
  let row = others.map(() => 0)
  for (const one of some) {
    const above = row
    row = []
    others.forEach((other, at) => {
      const diagonal = at > 0 ? (above[at - 1] ?? 0) : 0
      row.push(one === other ? diagonal + 1 : Math.max(above[at] ?? 0, row[at - 1] ?? 0))
    })
  }
  return row.at(-1) ?? 0
}
