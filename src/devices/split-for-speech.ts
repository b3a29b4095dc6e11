/**
 * Cuts a text into pieces that an engine says without trouble: Chrome stops its remote voices after about 15 s with no
 * event (issues.chromium.org/issues/40747712), and some voices take no more than 4096 bytes. Cuts at sentences, then at
 * smaller pauses, then between words; a word longer than the limit is cut as a last resort.
 */
export function splitForSpeech(text: string, limit = 120): readonly string[] {
  return split(text.replace(/\s+/gu, ' ').trim(), limit, [/(?<=[.!?…。])\s/u, /(?<=[,;:)–—])\s/u, /\s/u])
}

function split(text: string, limit: number, breaks: readonly RegExp[]): string[] {
  if (text.length === 0) return []
  if (text.length <= limit) return [text]
  const [at, ...smaller] = breaks
  if (!at) return [text.slice(0, limit), ...split(text.slice(limit), limit, [])]
  const pieces: string[] = []
  for (const part of text.split(at).flatMap((piece) => split(piece, limit, smaller))) {
    const last = pieces.at(-1)
    // Fewer pieces sound better: an engine pauses between utterances.
    if (last !== undefined && last.length + 1 + part.length <= limit) pieces[pieces.length - 1] = `${last} ${part}`
    else pieces.push(part)
  }
  return pieces
}
