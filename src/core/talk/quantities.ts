/** Amounts written `{7.6 L | 2 gal}` in the system the operator works in, and units as words for the voice. */

export type UnitSystem = 'metric' | 'us'

export function inUnits(text: string, system: UnitSystem): string {
  return text.replaceAll(/\{([^{}|]+)\|([^{}|]+)\}/g, (_, metric: string, us: string) => (system === 'metric' ? metric : us).trim())
}

interface UnitWords {
  readonly pattern: string
  readonly one: string
  readonly many: string
}

const UNITS: readonly UnitWords[] = [
  { pattern: 'fl oz', one: 'fluid ounce', many: 'fluid ounces' },
  { pattern: 'gal', one: 'gallon', many: 'gallons' },
  { pattern: 'qt', one: 'quart', many: 'quarts' },
  { pattern: 'mL', one: 'milliliter', many: 'milliliters' },
  { pattern: 'L', one: 'liter', many: 'liters' },
  { pattern: 'tbsp', one: 'tablespoon', many: 'tablespoons' },
  { pattern: 'tsp', one: 'teaspoon', many: 'teaspoons' },
  { pattern: '°C', one: 'degree Celsius', many: 'degrees Celsius' },
  { pattern: '°F', one: 'degree Fahrenheit', many: 'degrees Fahrenheit' },
  { pattern: 'C', one: 'degree Celsius', many: 'degrees Celsius' },
  { pattern: 'F', one: 'degree Fahrenheit', many: 'degrees Fahrenheit' },
  { pattern: 'ppm', one: 'part per million', many: 'parts per million' },
  { pattern: 'mg/L', one: 'milligram per liter', many: 'milligrams per liter' },
  { pattern: 'min', one: 'minute', many: 'minutes' },
  { pattern: 'h', one: 'hour', many: 'hours' },
  { pattern: 's', one: 'second', many: 'seconds' },
  { pattern: 'cm', one: 'centimeter', many: 'centimeters' },
  { pattern: 'mm', one: 'millimeter', many: 'millimeters' },
  { pattern: '%', one: 'percent', many: 'percent' }
]

/** Units after a number become words, so that no engine has to guess them. */
export function speakable(text: string): string {
  const alternatives = UNITS.map((unit) => unit.pattern.replace('/', '\\/')).join('|')
  const pattern = new RegExp(`(\\d+(?:\\.\\d+)?)(?: to |-)?(\\d+(?:\\.\\d+)?)? ?(${alternatives})(?![A-Za-z])`, 'g')
  return text
    .replaceAll(pattern, (_, first: string, second: string | undefined, unit: string) => {
      const words = UNITS.find((known) => known.pattern === unit)
      const amount = second === undefined ? first : `${first} to ${second}`
      return `${amount} ${Number(amount) === 1 ? words?.one : words?.many}`
    })
    .replaceAll('pH', 'p H')
}
