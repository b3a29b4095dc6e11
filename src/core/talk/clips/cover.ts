/** Which clips, one after the other, say a text: the fewest, at the borders of words. */

export interface Known<Clip> {
  /** Words of the longest text that there is a clip for. */
  readonly longest: number
  readonly byWords: ReadonlyMap<string, Clip>
}

export interface Piece<Clip> {
  readonly clip: Clip
  /** The pause after it that the text asks for. */
  readonly pause: 'none' | 'short' | 'long'
}

interface Word {
  readonly word: string
  readonly pause: Piece<unknown>['pause']
}

/** Letters and figures, with the marks that follow them. */
const WORD = /([\p{L}\p{N}]+(?:['’][\p{L}\p{N}]+)*)([^\p{L}\p{N}]*)/gu

export function knownClips<Clip>(clips: Iterable<readonly [text: string, clip: Clip]>): Known<Clip> {
  let longest = 0
  const byWords = new Map<string, Clip>()
  for (const [text, clip] of clips) {
    const words = wordsOf(text)
    longest = Math.max(longest, words.length)
    if (words.length > 0) byWords.set(joined(words), clip)
  }
  return { longest, byWords }
}

/** Null where a word of the text is in no clip. Empty for a text without words. `text` is as spoken. */
export function coverWithClips<Clip>(text: string, known: Known<Clip>): readonly Piece<Clip>[] | null {
  const words = wordsOf(text)
  /** How the words before each place are said best: the number of pieces, and where the last one begins. */
  const best: ({ readonly pieces: number; readonly from: number; readonly clip: Clip } | null)[] = [null]
  for (let end = 1; end <= words.length; end += 1) {
    best[end] = null
    for (let from = Math.max(0, end - known.longest); from < end; from += 1) {
      const before = from === 0 ? 0 : best[from]?.pieces
      if (before === undefined) continue
      const clip = known.byWords.get(joined(words.slice(from, end)))
      const found = best[end]
      if (clip !== undefined && (!found || before + 1 < found.pieces)) best[end] = { pieces: before + 1, from, clip }
    }
  }
  const pieces: Piece<Clip>[] = []
  for (let end = words.length; end > 0;) {
    const last = best[end]
    if (!last) return null
    pieces.push({ clip: last.clip, pause: words[end - 1]?.pause ?? 'none' })
    end = last.from
  }
  return pieces.toReversed()
}

function wordsOf(text: string): readonly Word[] {
  return Array.from(text.toLowerCase().matchAll(WORD), ([, word = '', marks = '']) => ({
    word: word.replaceAll('’', "'"),
    pause: /[.!?]/.test(marks) ? 'long' : /[,;:–—]/.test(marks) ? 'short' : 'none'
  }))
}

function joined(words: readonly Word[]): string {
  return words.map(({ word }) => word).join(' ')
}
