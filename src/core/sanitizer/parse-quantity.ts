/** A typed amount with its unit, such as `7.6 L`, `2 gal` or `1 1/2 tsp`, or what has to be asked about it. */
import { parseNumber } from './parse-number.ts'
import {
  isVolumeUnit,
  MASS_G,
  STRENGTH_PPM,
  UNIT_SYSTEMS,
  VOLUME_ML,
  type MassUnit,
  type StrengthUnit,
  type UnitSystem,
  type VolumeUnit
} from './unit.ts'
import { type Temperature } from './temperature.ts'

export type Quantity =
  | { readonly kind: 'volume'; readonly value: number; readonly unit: VolumeUnit; readonly milliliters: number }
  | { readonly kind: 'mass'; readonly value: number; readonly unit: MassUnit; readonly grams: number }
  | { readonly kind: 'strength'; readonly value: number; readonly unit: StrengthUnit; readonly ppm: number }
  | ({ readonly kind: 'temperature' } & Temperature)
  | { readonly kind: 'ph'; readonly value: number }

export type ParsedQuantity =
  | { readonly kind: 'quantity'; readonly quantity: Quantity }
  | { readonly kind: 'which-number'; readonly decimal: number; readonly thousands: number | null }
  | { readonly kind: 'which-system'; readonly unit: string; readonly systems: readonly UnitSystem[] }
  | { readonly kind: 'which-unit'; readonly value: number }
  | { readonly kind: 'unknown-unit'; readonly unit: string }
  | { readonly kind: 'negative'; readonly value: number }
  | { readonly kind: 'no-number' }

const spelled = (...units: readonly (readonly [unit: string, spellings: string])[]) =>
  new Map(units.flatMap(([unit, spellings]) => spellings.split(', ').map((spelling) => [spelling, unit])))

/** Written forms, in small letters and the singular: those that need no system, and those that do. */
const SPELLINGS = spelled(
  ['ml', 'ml, milliliter'],
  ['l', 'l, liter'],
  ['g', 'g, gram'],
  ['kg', 'kg'],
  ['mg', 'mg'],
  ['lb', 'lb, pound'],
  ['ppm', 'ppm'],
  ['mg/L', 'mg/l'],
  ['%', '%, percent'],
  ['C', 'c, °c, celsiu, degrees celsiu'],
  ['F', 'f, °f, fahrenheit, degrees fahrenheit'],
  ['pH', 'ph']
)
const HOUSEHOLD = spelled(
  ['gal', 'gal, gallon'],
  ['qt', 'qt, quart'],
  ['pt', 'pt, pint'],
  ['floz', 'fl oz, floz, fluid ounce'],
  ['cup', 'cup'],
  ['tbsp', 'tbsp, tablespoon'],
  ['tsp', 'tsp, teaspoon']
)

const SYSTEM_WORDS: Readonly<Record<string, UnitSystem>> = {
  us: 'us',
  imperial: 'imperial',
  imp: 'imperial',
  uk: 'imperial',
  metric: 'metric',
  australian: 'australian'
}

/** The number may end in a digit or a sign for a fraction; all that follows is the unit. `pH 7` comes the other way round. */
const AMOUNT = /^(.*[\d½¼¾⅓⅔⅛⅜⅝⅞])\s*(.*)$/

/** `system` is what the shop's own measures are, or null when nobody has said so. */
export function parseQuantity(typed: string, system: UnitSystem | null): ParsedQuantity {
  const [, first = '', rest = ''] = AMOUNT.exec(typed.trim().replace(/^ph\s*(.+)$/i, '$1 pH')) ?? []
  const number = parseNumber(first)
  if (number.kind === 'no-number') return number
  if (number.kind === 'comma') return { kind: 'which-number', decimal: number.decimal, thousands: number.thousands }
  const { value } = number
  // An ounce alone may be a weight or a volume.
  if (/^(oz\.?|ounces?)?$/i.test(rest)) return { kind: 'which-unit', value }
  const unit = unitNamed(rest, system)
  if (typeof unit !== 'string') return unit
  const quantity = quantityOf(value, unit)
  if (quantity === null) return { kind: 'unknown-unit', unit: rest }
  return value < 0 && quantity.kind !== 'temperature' ? { kind: 'negative', value } : { kind: 'quantity', quantity }
}

type NoUnit = Extract<ParsedQuantity, { kind: 'which-system' | 'unknown-unit' }>

function unitNamed(typed: string, system: UnitSystem | null): string | NoUnit {
  const name = typed.toLowerCase().replaceAll('.', '').replaceAll(/\s+/g, ' ')
  const plain = SPELLINGS.get(singular(name))
  if (plain !== undefined) return plain
  if (isVolumeUnit(name)) return name
  const named = Object.keys(SYSTEM_WORDS).find((word) => name.startsWith(`${word} `) || name.endsWith(` ${word}`))
  const bare = named === undefined ? name : name.replace(new RegExp(`^${named} | ${named}$`), '')
  const household = HOUSEHOLD.get(singular(bare))
  if (household === undefined) return { kind: 'unknown-unit', unit: typed }
  const systems = UNIT_SYSTEMS.filter((one) => isVolumeUnit(`${household}-${one}`))
  const chosen = named === undefined ? system : (SYSTEM_WORDS[named] ?? null)
  return chosen !== null && systems.includes(chosen)
    ? `${household}-${chosen}`
    : { kind: 'which-system', unit: bare, systems }
}

/** British litres are liters here. What is left of celsius is in the table. */
function singular(name: string): string {
  return name.replace('litre', 'liter').replace(/s$/, '')
}

function quantityOf(value: number, unit: string): Quantity | null {
  if (isVolumeUnit(unit)) return { kind: 'volume', value, unit, milliliters: value * VOLUME_ML[unit] }
  switch (unit) {
    case 'g':
    case 'kg':
    case 'mg':
    case 'lb':
      return { kind: 'mass', value, unit, grams: value * MASS_G[unit] }
    case 'ppm':
    case 'mg/L':
    case '%':
      return { kind: 'strength', value, unit, ppm: value * STRENGTH_PPM[unit] }
    case 'C':
    case 'F':
      return { kind: 'temperature', value, unit }
    case 'pH':
      return { kind: 'ph', value }
    default:
      return null
  }
}
