/** What somebody typed into a field: a value, nothing yet, or something to ask about. Never a silent number. */
import { parseNumber } from './parse-number.ts'
import { parseQuantity } from './parse-quantity.ts'
import type { UnitSystem } from './unit.ts'
import type { Temperature } from './temperature.ts'
import type { SanitizerWords } from './words.en.ts'

export type Typed<T> =
  | { readonly kind: 'value'; readonly value: T }
  | { readonly kind: 'empty' }
  | { readonly kind: 'ask'; readonly text: string }

const EMPTY = { kind: 'empty' } as const
const ask = (text: string) => ({ kind: 'ask', text }) as const

/** `above` is left out of the range, `most` belongs to it. */
export function typedNumber(
  typed: string,
  words: SanitizerWords,
  { above = -Infinity, most = Infinity }: { readonly above?: number; readonly most?: number } = {}
): Typed<number> {
  if (typed.trim() === '') return EMPTY
  const parsed = parseNumber(typed)
  if (parsed.kind === 'no-number') return ask(words.ask(parsed))
  if (parsed.kind === 'comma') return ask(words.ask({ ...parsed, kind: 'which-number' }))
  return parsed.value > above && parsed.value <= most
    ? { kind: 'value', value: parsed.value }
    : ask(words.outOfRange(parsed.value, above, most))
}

/** Millilitres. */
export function typedVolume(
  typed: string,
  words: SanitizerWords,
  system: UnitSystem | null,
  most: number
): Typed<number> {
  if (typed.trim() === '') return EMPTY
  const parsed = parseQuantity(typed, system)
  if (parsed.kind !== 'quantity') return ask(words.ask(parsed))
  if (parsed.quantity.kind !== 'volume') return ask(words.noVolume)
  const { milliliters } = parsed.quantity
  return milliliters > 0 && milliliters <= most
    ? { kind: 'value', value: milliliters }
    : ask(words.outOfRange(parsed.quantity.value, 0, null))
}

/** A bare number needs its scale: 75 C and 75 F are both warm water. */
export function typedTemperature(typed: string, words: SanitizerWords): Typed<Temperature> {
  if (typed.trim() === '') return EMPTY
  const parsed = parseQuantity(typed, null)
  if (parsed.kind === 'quantity' && parsed.quantity.kind === 'temperature') {
    const { value, unit } = parsed.quantity
    return { kind: 'value', value: { value, unit } }
  }
  return ask(parsed.kind === 'quantity' || parsed.kind === 'which-unit' ? words.whichScale : words.ask(parsed))
}
