/** Takes off what is for the eye alone: markup, pictures, odd quotes and dashes. What is left is letters, figures and pauses. */

const FRACTION_SIGNS: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅓': '1/3',
  '⅔': '2/3',
  '⅕': '1/5',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8'
}

export function plainText(text: string, webAddress: string): string {
  return tidyPauses(
    text
      .replaceAll(/<\/?[a-z][^<>]*>/gi, ' ')
      .replaceAll(/!?\[([^\]]*)\]\([^)\s]*\)/g, '$1')
      .replaceAll(/\bhttps?:\/\/[^\s)>]+|\bwww\.[^\s)>]+/gi, webAddress)
      .replaceAll(
        /\p{Extended_Pictographic}|\p{Regional_Indicator}|\p{Emoji_Modifier}|\u{FE0F}|\u{200D}|\u{20E3}/gu,
        ' '
      )
      .replaceAll(/[\u200B\u200C\u2060\uFEFF\u00AD\u202A-\u202E\u2066-\u2069]|\p{Cc}/gu, ' ')
      .replaceAll(/[*_`^|]{1,3}(?=\S)|(?<=\S)[*_`^|]{1,3}|~~|^\s*(?:#{1,6}|[>•·-])\s+(?!\d)/gm, ' ')
      .replaceAll(/[‘’‚′`´]/g, "'")
      .replaceAll(/[“”„«»″]/g, '"')
      .replaceAll('−', '-')
      .replaceAll('º', '°')
      .replaceAll(/(?:(\d) ?)?([½¼¾⅓⅔⅕⅛⅜⅝⅞])/g, (_, whole = '', sign: string) =>
        `${whole} ${FRACTION_SIGNS[sign]}`.trim()
      )
      .replaceAll(/[\u00A0\u2000-\u200A\u202F]/g, ' ')
      .replaceAll(/(?<=\d\/\d+)-(?=\p{L})/gu, ' ')
      .replaceAll(/(?<!\d) (?:-|–|—)+ | (?:-|–|—)+ (?!\d)|(?<=\p{L})—(?=\p{L})/gu, ', ')
      .replaceAll(/\s*\(([^()]*)\)/g, ', $1,')
      .replaceAll(/[()[\]{}\\]/g, ' ')
      .replaceAll('…', '. ')
      .replaceAll(/\.{2,}/g, '. ')
  )
}

/** One pause where several met, none before the first word, none doubled at the end of a sentence. */
export function tidyPauses(text: string): string {
  return text
    .replaceAll(/\s+/g, ' ')
    .replaceAll(/ +(?=[,.;:!?])/g, '')
    .replaceAll(/[,;]+(?=[,.;:!?])/g, '')
    .replaceAll(/([.!?])(?:[.,;]| \.)+(?!\d)/g, '$1')
    .replace(/^[\s,;.]+(?!\d)/, '')
    .replace(/[\s,;]+$/, '')
}
