/** Every sentence of a language's words with all that is open in it left open: what is said of a new sentence, too, has its clips. */

type Sentence = (...parts: readonly unknown[]) => unknown

/** More than anybody is read out: then another sentence comes. */
const MANY = 5

export function openSentences(words: object, open: string): readonly string[] {
  return Object.values(words).flatMap((entry): readonly string[] => {
    if (typeof entry === 'string') return [entry]
    if (typeof entry === 'function') return filledIn(entry as Sentence, open)
    return typeof entry === 'object' && entry !== null ? openSentences(entry, open) : []
  })
}

function filledIn(sentence: Sentence, open: string): readonly string[] {
  const fillings: readonly unknown[] = [open, ...[1, 2, MANY].map((count) => Array.from({ length: count }, () => open))]
  return fillings.flatMap((filling) => {
    try {
      const said = sentence(...Array.from({ length: sentence.length }, () => filling))
      return typeof said === 'string' ? [said] : []
    } catch {
      // It takes lists where this filling is text, or the other way round, or something of its own.
      return []
    }
  })
}
