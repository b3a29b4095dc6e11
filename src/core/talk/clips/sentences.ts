/** Clips are of sentences: a text, as spoken, cut at their ends. */
export function sentences(spoken: string): readonly string[] {
  return spoken.split(/(?<=[.!?]) /).filter(hasWords)
}

export function hasWords(text: string): boolean {
  return /[\p{L}\p{N}]/u.test(text)
}
