/** Every English word about strengths, readings and mixing. Another language is another file of this shape. */
import type { ComparedRecipe } from './household-recipes.ts'
import type { Action, Assumption, Missing, OutOfLimit } from './judge.ts'
import type { Gas } from './chemical-order.ts'
import type { MeasureId } from './measure.ts'
import type { ParsedQuantity } from './parse-quantity.ts'
import type { Implausible } from './reading.ts'
import type { Agent, Aspect, Cited, Quantity, Status, Subject } from './rule-set.ts'
import type { Guess } from './stock.ts'
import type { UnitSystem } from './unit.ts'
import type { TemperatureUnit } from './temperature.ts'

const QUANTITIES: Readonly<Record<Quantity, string>> = {
  ppm: 'strength',
  temperature: 'temperature',
  ph: 'pH',
  hardness: 'hardness of the water',
  seconds: 'contact time',
  clear: 'look of the rinse'
}

const UNITS: Readonly<Record<Quantity, string>> = {
  ppm: ' ppm',
  temperature: '',
  ph: '',
  hardness: ' mg/L',
  seconds: ' s',
  clear: ''
}

const ACTIONS: Readonly<Record<Action, string>> = {
  'add-product': 'Add product, stir, and read it again.',
  'remix-weaker': 'Pour it out, mix a weaker batch, and read it again.',
  'remix-fresh': 'Mix a fresh batch with clean water, and read it again.',
  warm: 'Make it warmer, and read it again.',
  'warm-or-add-product':
    'Add product, because a stronger solution may be cooler, or make it warmer. Then read it again.',
  cool: 'Let it cool, and read it again.',
  'hold-longer': 'Keep it wet until the time is full.',
  'softer-water': 'Use softer water, or a product whose label allows this water.',
  'rinse-again': 'Rinse again, and look again.',
  'discard-if-long': 'Find out how long it was warm. When in doubt, throw it out.'
}

const STATUSES: Readonly<Record<Status, string>> = {
  read: 'read in its own text',
  'adopted-text': 'read in a text that adopts it',
  secondary: 'as a secondary page gives it',
  memory: 'from memory, not checked'
}

const ASPECTS: Readonly<Record<Aspect, string>> = {
  solution: 'strength',
  contact: 'contact time',
  cap: 'most that may stay on without a rinse',
  temperature: 'temperature',
  look: 'look'
}

const SUBJECTS: Readonly<Record<Subject, string>> = {
  chlorine: 'chlorine',
  iodine: 'iodine',
  quat: 'quaternary ammonium',
  'hot-water': 'hot water',
  'hot-water-machine': 'hot water in a machine',
  'cold-holding': 'cold holding',
  'handwash-water': 'handwash water',
  'wash-water': 'wash water',
  'heat-treatment': 'heat treatment',
  rinse: 'rinse'
}

const SYSTEMS: Readonly<Record<UnitSystem, string>> = {
  us: 'US',
  imperial: 'imperial',
  metric: 'metric',
  australian: 'Australian'
}

const MEASURE_WORDS: Readonly<Record<string, string>> = {
  ml: 'mL',
  l: 'L',
  syringe: 'mL by syringe',
  g: 'g',
  'fine-scale': 'g on a fine scale',
  tablet: 'tablets',
  floz: 'fl oz'
}

const shown = (value: number) => String(Number(value.toPrecision(6)))
const about = (value: number) => String(Number(value.toPrecision(4)))
const capital = (text: string) => text.slice(0, 1).toUpperCase() + text.slice(1)
const list = (items: readonly string[]) =>
  items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} or ${items.at(-1) ?? ''}`
const withUnit = (value: string, quantity: Quantity, unit: TemperatureUnit | null) =>
  `${value}${unit === null ? UNITS[quantity] : ` °${unit}`}`

/** A fraction where a spoon or a jug has one: 1 1/2, not 1.5. */
const FRACTIONS: Readonly<Record<string, string>> = { '0.25': '1/4', '0.5': '1/2', '0.75': '3/4' }
function counted(count: number): string {
  const whole = Math.floor(count)
  const part = FRACTIONS[String(count - whole)]
  if (part === undefined) return shown(count)
  return whole === 0 ? part : `${whole} ${part}`
}

function measure(id: MeasureId): string {
  const [name, system] = id.split('-') as [string, UnitSystem | undefined]
  const whole = MEASURE_WORDS[id]
  return whole ?? `${system === undefined ? '' : `${SYSTEMS[system]} `}${MEASURE_WORDS[name] ?? name}`
}

const measures = (ids: readonly MeasureId[]) => list(ids.map(measure))

export const sanitizerWordsEn = {
  subject: (subject: Subject) => SUBJECTS[subject],
  source: ({ source, edition, status }: Cited) => `${source} (${edition}; ${STATUSES[status]})`,
  labelFirst: 'The product label and local code come first.',

  from: (source: string) => `Source: ${source}`,
  good: 'Good.',
  outOfLimits: 'Out of limits.',
  unknown: 'This cannot be judged yet.',
  /** What, by how much, and what to do. */
  out: ({ quantity, side, value, bound, by, unit, action }: OutOfLimit) => {
    if (side === 'not-clear') return `The rinse is not clear. ${ACTIONS[action]}`
    const [bounded, much] = side === 'below' ? ['at least', 'too low'] : ['at most', 'too high']
    const amount = (number: number) => withUnit(shown(number), quantity, unit)
    const missed = withUnit(about(by), quantity, unit)
    return `${capital(QUANTITIES[quantity])} ${amount(value)}, wanted ${bounded} ${amount(bound)}: ${missed} ${much}. ${ACTIONS[action]}`
  },
  missing: (one: Missing) => {
    switch (one.kind) {
      case 'reading':
        return `The ${QUANTITIES[one.quantity]} is missing.`
      case 'label':
        return `The ${QUANTITIES[one.quantity]} on the product label is missing, and the rule leaves it to the label.`
      case 'limit':
        return `No rule set and no label here has a limit for the ${ASPECTS[one.aspect]}.`
    }
  },
  assumed: ({ demand }: Assumption) =>
    `The ${QUANTITIES[demand.quantity]} was not given. ${'max' in demand && demand.max !== null ? `It must be at most ${withUnit(shown(demand.max), demand.quantity, null)}.` : ''}`.trim(),
  implausible: ({ quantity, value, unit, from, to }: Implausible) =>
    `A ${QUANTITIES[quantity]} of ${withUnit(shown(value), quantity, unit)} cannot be. It must be between ${shown(from)} and ${withUnit(shown(to), quantity, unit)}. Read it again.`,

  ask: (parsed: Exclude<ParsedQuantity, { kind: 'quantity' }>): string => {
    switch (parsed.kind) {
      case 'which-number': {
        const meant = [parsed.decimal, parsed.thousands].flatMap((value) => (value === null ? [] : [shown(value)]))
        return `Do you mean ${list(meant)}? Write a point for decimals, and no comma.`
      }
      case 'which-system':
        return `Which ${parsed.unit}: ${list(parsed.systems.map((system) => SYSTEMS[system]))}?`
      case 'which-unit':
        return `${shown(parsed.value)} of what? Add a unit, such as mL, fl oz or g.`
      case 'unknown-unit':
        return `"${parsed.unit}" is no unit known here.`
      case 'negative':
        return `${shown(parsed.value)} is below zero.`
      case 'no-number':
        return 'There is no number in it.'
    }
  },

  outOfRange: (value: number, above: number, most: number | null) =>
    `${shown(value)} cannot be. ${[...(Number.isFinite(above) ? [`It must be more than ${shown(above)}.`] : []), ...(most !== null && Number.isFinite(most) ? [`It must be at most ${shown(most)}.`] : [])].join(' ')}`.trim(),
  noVolume: 'That is no volume. Write one such as 7.6 L or 2 gal.',
  whichScale: 'Write C or F behind it, such as 24 C or 75 F.',

  measure,
  counted,
  /** Nobody reads a fraction off a scale or a syringe. */
  dose: (id: MeasureId, count: number) =>
    `${['ml', 'g', 'syringe', 'fine-scale'].includes(id) ? shown(count) : counted(count)} ${measure(id)}`,
  /** Fill up to the batch: its volume is product and water together. */
  recipe: (product: string, litres: number) => `Put ${product} in, and fill up with cool water to ${about(litres)} L.`,
  makes: (low: number, high: number) =>
    low === high ? `That makes ${about(low)} ppm.` : `That makes ${about(low)} to ${about(high)} ppm.`,
  /** Doses of measures a crew may own, with what each makes. */
  inMeasures: (doses: readonly (readonly [text: string, ppm: number])[]) =>
    doses.length === 0
      ? 'None of the usual measures fits: weigh or measure it out exactly.'
      : `In whole steps of a measure: ${doses.map(([text, ppm]) => `${text} (${about(ppm)} ppm)`).join(', ')}.`,
  /** Washington State Department of Health 970-216: into cool water, gloves and eyes, fresh each day. */
  mixing: [
    'Caution. Product can burn skin and eyes. Wear gloves and eye protection, and pour low and slowly.',
    'Add product to cool water, never water to product, and never hot water. Mix fresh each day and label the vessel.'
  ],
  readStrip: 'Read a strip before you use it. Wear gloves and eye protection.',
  guess: (guess: Guess) =>
    guess.kind === 'convention'
      ? 'The label percent was taken times 10,000, as published tables do. By weight it would be up to a tenth off: look on the label.'
      : `The density was taken as ${guess.low === guess.high ? guess.low : `${guess.low} to ${guess.high}`} kg/L, which is usual at this strength. The safety data sheet has the true one.`,
  overCap: (capPpm: number) =>
    `Refused: more than ${shown(capPpm)} ppm may not stay on food-contact surfaces without a rinse.`,
  densityMissing:
    'Refused: a percent by weight needs the density (kg/L), which is missing. It is in the safety data sheet.',
  densityTooVague: (capPpm: number, highPpm: number) =>
    `Refused: without the true density it could become ${about(highPpm)} ppm, and the cap is ${shown(capPpm)} ppm. Give the density or aim lower.`,
  stockTooWeak: (stockPpm: number) => `Refused: the product itself has only ${about(stockPpm)} ppm.`,
  wrongMeasure: (fitting: readonly MeasureId[]) =>
    `Refused: this product is not measured that way. These fit: ${measures(fitting)}.`,
  noStepFits: (id: MeasureId, below: number, above: number, fitting: readonly MeasureId[]) =>
    `Refused: one step of ${measure(id)} gives ${about(below)} ppm and the next ${about(above)} ppm, so none fits. ${
      fitting.length === 0
        ? 'No measure here fits: aim lower, or mix a larger batch.'
        : `These fit: ${measures(fitting)}.`
    }`,
  belowMinimum: (agent: Agent, ppm: number) =>
    `${shown(ppm)} ppm is the least that counts as ${SUBJECTS[agent]} sanitizer here; this is weaker.`,

  compared: ({ verdict, overCap }: ComparedRecipe) =>
    [
      { 'as-published': 'as published', weaker: 'weaker than published', stronger: 'stronger than published' }[verdict],
      ...(overCap ? ['over the cap'] : [])
    ].join(', '),

  /** ANSI Z535.4 signal word: it could kill. */
  gas: (gas: Gas): string =>
    gas === 'chlorine'
      ? 'Warning. Acid and bleach give off chlorine gas, which can kill. Rinse fully with water between them, and never mix them.'
      : 'Warning. Ammonia and bleach give off chloramine gas, which can kill. Rinse fully with water between them, and never mix them.'
}

export type SanitizerWords = typeof sanitizerWordsEn
