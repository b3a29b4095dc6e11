/** Works out a batch from a shell, or what a batch became. */
import { doseChoices, doseOf, recipeLines, recipeNotes, refusalLine } from '../../src/core/sanitizer/explain-mix.ts'
import { compareRecipe, HOUSEHOLD_RECIPES } from '../../src/core/sanitizer/household-recipes.ts'
import { isMeasure, MEASURES, type MeasureId } from '../../src/core/sanitizer/measure.ts'
import { mix, strengthMade } from '../../src/core/sanitizer/mix.ts'
import { parseQuantity } from '../../src/core/sanitizer/parse-quantity.ts'
import { AGENTS, CONVENTIONS, FORMS, type Agent, type Product } from '../../src/core/sanitizer/rule-set.ts'
import { stockStrength } from '../../src/core/sanitizer/stock.ts'
import { strengthCaps, type StrengthCaps } from '../../src/core/sanitizer/strength-caps.ts'
import { VOLUME_ML } from '../../src/core/sanitizer/unit.ts'
import { sanitizerWordsEn as words } from '../../src/core/sanitizer/words.en.ts'
import { chosenLabel, chosenRules, required } from './chosen-rules.ts'
import { printed, type Outcome, type Printed } from './command.ts'
import { BadInput, readOptions, type Options } from './options.ts'
import { RULE_SETS } from './shipped-rule-sets.ts'

const HELP = `npm run --silent mix -- --label-percent N --target-ppm N --volume-l N [options] [--json]
  --volume "2 gal-us"       instead of --volume-l: any volume with its unit
  --convention weight|trade|available   what the label percent means; left out, it is taken times 10,000
  --density N               kg/L, for weight and available
  --measure ID              ${Object.keys(MEASURES).join(' ')}
  --agent chlorine|iodine|quat  --form liquid|powder|tablet  --tablet-mg N (available, in one tablet)
  --label ID                a product label in procedures/rules instead of percent, convention and density
  --rules ID                whose cap holds; us-food-code when it is left out
  --added "2 tsp-us"        instead of --target-ppm: what strength did that make?
  --household               published rules of thumb, and how far off they are
The volume is the whole batch, product and water together. Ends with 0 for a recipe or a refusal, with 2 for bad input.
${words.readStrip} ${words.labelFirst}`

const NAMES = [
  ...['label-percent', 'target-ppm', 'volume-l', 'volume', 'convention', 'density', 'measure'],
  ...['agent', 'form', 'tablet-mg', 'label', 'rules', 'added']
]

/** Nobody makes more in one vessel, and nobody can dose for less than a cup. Common practice, no source. */
const MOST_LITRES = 100_000
const MOST_PPM = 1_000_000
/** Sodium hypochlorite above this does not keep as a liquid; from memory. */
const STRONGEST_LIQUID_CHLORINE = 20

export function mixCommand(args: readonly string[]): Printed {
  return printed(args, HELP, work)
}

function work(args: readonly string[]): Outcome {
  const options = readOptions(args, NAMES, ['json', 'household'])
  const product = options.has('household') ? null : productFrom(options)
  const caps = capAndMinimum(options, product?.agent ?? 'chlorine')
  if (product === null) return household(caps.cap)
  const milliliters = volumeFrom(options)
  return options.has('added') ? made(options, product, milliliters, caps) : recipe(options, product, milliliters, caps)
}

function recipe(options: Options, product: Product, milliliters: number, { cap, minimum }: StrengthCaps): Outcome {
  const targetPpm = required(options.number('target-ppm', { above: 0, most: MOST_PPM }), 'target-ppm')
  const order = { product, targetPpm, milliliters, capPpm: cap, measure: measureFrom(options) }
  const mixed = mix(order)
  const base = { targetPpm, volumeL: milliliters / 1000, capPpm: cap, labelFirst: words.labelFirst }
  if (mixed.kind !== 'recipe') {
    const reason = refusalLine(mixed, order.measure, words)
    return {
      json: {
        milliliters: null,
        grams: null,
        tablets: null,
        measure: null,
        resultPpm: null,
        refused: true,
        code: mixed.kind,
        reasons: [reason],
        fitting: 'fitting' in mixed ? mixed.fitting : [],
        ...base
      },
      lines: [reason, words.labelFirst]
    }
  }
  const { amount, of, dose, result } = mixed
  const { id, count, text } = doseOf(mixed, words)
  return {
    json: {
      milliliters: of === 'volume' ? amount : null,
      grams: of === 'mass' ? amount : null,
      tablets: of === 'count' ? amount : null,
      measure: { id, count, text, amount: dose?.amount ?? amount, rounded: dose !== null },
      resultPpm: result.low,
      resultHighPpm: result.high,
      refused: false,
      reasons: recipeNotes(mixed, order, minimum, words),
      choices: doseChoices(order, of, words),
      readStrip: words.readStrip,
      ...base
    },
    lines: recipeLines(mixed, order, minimum, words)
  }
}

function made(options: Options, product: Product, milliliters: number, { cap, minimum }: StrengthCaps): Outcome {
  if (options.has('target-ppm')) throw new BadInput('added', 'Give --target-ppm or --added, not both.')
  const amount = addedAmount(options, product)
  if (product.form === 'liquid' && amount > milliliters)
    throw new BadInput('added', '--added is more than the whole batch.')
  const strength = strengthMade(product, amount, milliliters)
  const guess = product.form === 'tablet' ? null : guessOf(product)
  const isOver = strength !== null && cap !== null && strength.high > cap
  const isWeak = strength !== null && minimum !== null && strength.low < minimum
  const reasons = [
    ...(strength === null ? [words.densityMissing] : []),
    ...(isOver && cap !== null ? [words.overCap(cap)] : []),
    ...(isWeak && minimum !== null ? [words.belowMinimum(product.agent, minimum)] : []),
    ...(guess === null ? [] : [words.guess(guess)])
  ]
  return {
    json: {
      milliliters: product.form === 'liquid' ? amount : null,
      grams: product.form === 'powder' ? amount : null,
      tablets: product.form === 'tablet' ? amount : null,
      measure: null,
      resultPpm: strength?.low ?? null,
      resultHighPpm: strength?.high ?? null,
      refused: strength === null || isOver,
      reasons,
      volumeL: milliliters / 1000,
      capPpm: cap,
      readStrip: words.readStrip,
      labelFirst: words.labelFirst
    },
    lines: [
      ...(strength === null ? [] : [words.makes(strength.low, strength.high)]),
      ...reasons,
      words.readStrip,
      words.labelFirst
    ]
  }
}

function guessOf(product: Exclude<Product, { form: 'tablet' }>) {
  const stock = stockStrength(product)
  return stock.kind === 'known' ? stock.guess : null
}

/** Every batch is held to a cap: where the chosen rules have none, to that of the usual ones. */
function capAndMinimum(options: Options, agent: Agent): StrengthCaps {
  const usual = RULE_SETS.filter(({ id }) => id === 'us-food-code')
  return strengthCaps(agent, [...chosenRules(options), ...usual], chosenLabel(options))
}

function productFrom(options: Options): Product {
  const label = chosenLabel(options)
  if (label !== null) {
    const own = ['label-percent', 'convention', 'density', 'agent', 'form', 'tablet-mg'].find((name) =>
      options.has(name)
    )
    if (own !== undefined) throw new BadInput(own, `Give --label or --${own}, not both.`)
    if (label.product === null) throw new BadInput('label', 'That label does not say what is in the container.')
    return label.product
  }
  const agent = options.oneOf('agent', AGENTS) ?? 'chlorine'
  const form = options.oneOf('form', FORMS) ?? 'liquid'
  const convention = options.oneOf('convention', CONVENTIONS)
  const density = options.number('density', { above: 0 })
  if (form !== 'liquid' && (convention !== undefined || density !== undefined))
    throw new BadInput(convention === undefined ? 'density' : 'convention', `That has no meaning for a ${form}.`)
  if (form === 'tablet') {
    return { form, agent, milligrams: required(options.number('tablet-mg', { above: 0, most: 100_000 }), 'tablet-mg') }
  }
  const percent = required(options.number('label-percent', { above: 0, most: 100 }), 'label-percent')
  if (form === 'powder') return { form, agent, percent }
  if (agent === 'chlorine' && percent > STRONGEST_LIQUID_CHLORINE) {
    throw new BadInput(
      'label-percent',
      `--label-percent is ${percent}. No liquid keeps that much chlorine; is it a powder? Then add --form powder.`
    )
  }
  if (density !== undefined && (density < 0.7 || density > 2))
    throw new BadInput('density', `--density is ${density} kg/L. It must be between 0.7 and 2; water has 1.`)
  return { form, agent, percent, convention: convention ?? 'unstated', density: density ?? null }
}

function volumeFrom(options: Options): number {
  const litres = options.number('volume-l', { above: 0, most: MOST_LITRES })
  const typed = options.text('volume')
  if (litres !== undefined && typed !== undefined)
    throw new BadInput('volume', 'Give --volume-l or --volume, not both.')
  if (typed === undefined) return required(litres, 'volume-l') * 1000
  const milliliters = milliliterIn('volume', typed)
  if (milliliters <= 0 || milliliters > MOST_LITRES * 1000)
    throw new BadInput('volume', `--volume must be more than 0 and at most ${MOST_LITRES} L.`)
  return milliliters
}

function milliliterIn(option: string, typed: string): number {
  const parsed = parseQuantity(typed, null)
  if (parsed.kind !== 'quantity') throw new BadInput(option, `--${option} is "${typed}". ${words.ask(parsed)}`)
  if (parsed.quantity.kind !== 'volume') throw new BadInput(option, `--${option} is "${typed}", which is no volume.`)
  return parsed.quantity.milliliters
}

function addedAmount(options: Options, product: Product): number {
  const typed = options.text('added') ?? ''
  if (product.form === 'tablet') return required(options.number('added', { above: 0, most: 10_000 }), 'added')
  if (product.form === 'powder') {
    const parsed = parseQuantity(typed, null)
    if (parsed.kind !== 'quantity') throw new BadInput('added', `--added is "${typed}". ${words.ask(parsed)}`)
    if (parsed.quantity.kind !== 'mass') throw new BadInput('added', `--added is "${typed}"; a powder is weighed.`)
    return parsed.quantity.grams
  }
  const milliliters = milliliterIn('added', typed)
  if (milliliters <= 0) throw new BadInput('added', '--added must be more than 0.')
  return milliliters
}

function measureFrom(options: Options): MeasureId | null {
  const id = options.text('measure')
  if (id === undefined) return null
  if (isMeasure(id)) return id
  throw new BadInput('measure', `--measure is "${id}". It can be: ${Object.keys(MEASURES).join(', ')}`)
}

function household(cap: number | null): Outcome {
  const rows = HOUSEHOLD_RECIPES.map((one) => ({ ...one, ...compareRecipe(one, cap) }))
  return {
    json: { recipes: rows, capPpm: cap },
    lines: rows.map(({ product, water, percent, publishedPpm, source, ...compared }) => {
      const [low, high] = [compared.made.low, compared.made.high].map((ppm) => Math.round(ppm))
      const percents = percent[0] === percent[1] ? `${percent[0]} %` : `${percent[0]} to ${percent[1]} %`
      const amount = ([count, unit]: typeof product) =>
        `${count} ${words.measure(unit)} (${(count * VOLUME_ML[unit]).toPrecision(4)} mL)`
      const makes = low === high ? `${low}` : `${low} to ${high}`
      return `${percents}: ${amount(product)} to ${amount(water)}: published ${publishedPpm} ppm, makes ${makes} ppm: ${words.compared(compared)}. ${source}`
    })
  }
}
