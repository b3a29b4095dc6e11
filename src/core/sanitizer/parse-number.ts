/** Numbers as people type them: `7.6`, `1/2`, `1 1/2`, `½`. What could mean two things is asked about, never guessed. */

export type ParsedNumber =
  | { readonly kind: 'number'; readonly value: number }
  /** A comma may part decimals (8,25) or thousands (1,000). */
  | { readonly kind: 'comma'; readonly decimal: number; readonly thousands: number | null }
  | { readonly kind: 'no-number' }

const SIGNS: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅓': '1/3',
  '⅔': '2/3',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8'
}

const MINUS = '[-−]?'
const DECIMAL = new RegExp(String.raw`^${MINUS}(?:\d+(?:\.\d+)?|\.\d+)$`)
const FRACTION = /^(?:(\d+)(?: |-| and ))?(\d+)\/(\d+)$/
const WITH_COMMA = new RegExp(String.raw`^${MINUS}\d+,\d+$`)

export function parseNumber(typed: string): ParsedNumber {
  const text = typed
    .trim()
    .replaceAll(/(\d)? ?([½¼¾⅓⅔⅛⅜⅝⅞])/g, (_, whole: string | undefined, sign: string) =>
      [whole, SIGNS[sign]].filter((part) => part !== undefined).join(' ')
    )
    .replaceAll(/\s+/g, ' ')
  if (DECIMAL.test(text)) return finite(Number(text.replace('−', '-')))
  const fraction = FRACTION.exec(text)
  if (fraction) {
    const [, whole = '0', over = '', under = ''] = fraction
    return Number(under) === 0 ? { kind: 'no-number' } : finite(Number(whole) + Number(over) / Number(under))
  }
  if (!WITH_COMMA.test(text)) return { kind: 'no-number' }
  const plain = text.replace('−', '-')
  return {
    kind: 'comma',
    decimal: Number(plain.replace(',', '.')),
    thousands: /,\d{3}$/.test(plain) ? Number(plain.replace(',', '')) : null
  }
}

function finite(value: number): ParsedNumber {
  return Number.isFinite(value) ? { kind: 'number', value } : { kind: 'no-number' }
}
