/** Heard or written words, in the form they are compared in. */

/**
 * Lower case, punctuation gone, and without the accents that recognisers leave out as they like; ñ is a letter of its own.
 * What belongs to a number stays with it (a sign, a decimal point), so that nothing that was said shrinks to another
 * number; thousands commas go, and a unit stands apart from its number.
 */
export function tokens(words: string): string[] {
  return words
    .toLowerCase()
    .replaceAll('’', "'")
    .replaceAll('−', '-')
    .normalize('NFD')
    .replaceAll(/[\u0301\u0308]/g, '')
    .normalize('NFC')
    .replaceAll(/(?<=[a-z])-(?=[a-z])|(?<=^|\s)[-–—](?=\s|$)/g, ' ')
    .replaceAll(/(?<=\d),(?=\d{3}(?!\d))/g, '')
    .replaceAll(/(?<=\d) ?°/g, ' degrees ')
    .replaceAll(/(?<=\d)(?=[a-z%])/g, ' ')
    .replaceAll(/\.(?!\d)|(?<=[^\d\s])\.(?=\d)|(?<!\d)[,:]|[,:](?!\d)|[;!?¡¿"()…]/g, ' ')
    .split(/\s+/)
    .filter((word) => word !== '')
}

interface Filler {
  readonly before: readonly string[]
  readonly after: readonly string[]
}

/** The words with ever more filler taken off either end, longest first. Two ways may be left: "okay, um" and "um". */
export function cores(words: readonly string[], filler: Filler): readonly (readonly string[])[] {
  const starts = words.findIndex((word) => !filler.before.includes(word))
  const ends = words.findLastIndex((word) => !filler.after.includes(word))
  const found: (readonly string[])[] = []
  for (let start = 0; start <= (starts < 0 ? words.length - 1 : starts); start += 1) {
    for (let end = words.length; end > Math.max(start, ends); end -= 1) found.push(words.slice(start, end))
  }
  return found.sort((a, b) => b.length - a.length)
}
