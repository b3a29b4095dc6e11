/** Clean, then sanitize, then leave alone. */
import type { Procedure } from '../procedure.ts'
import type { Rule } from './rule.ts'
import { says, spanishStem, type Patterns } from './reading.ts'
import { stepsByPlace, type PlacedStep } from './steps-in.ts'

const SOURCE = 'FDA Food Code 4-603 and 4-702.11: sanitized after cleaning, before use; 4-901.11: air-dried, not wiped.'

const RINSES: Patterns = {
  en: /^(?:(?:When|With) [^,]+, )?rinse\b/i,
  es: /^(?:(?:Cuando|Con) [^,]+, )?enjuague(?!\p{L})/iu
}
const SANITIZER: Patterns = { en: /sanitiz|disinfect/i, es: spanishStem('desinfect|sanitiz') }
const CLEANER: Patterns = { en: /clean|deterg|soap|wash/i, es: spanishStem('limpia|deterg|jabón|lava') }

type Doing = 'clean' | 'sanitize' | 'rinse' | 'other'

function doingOf({ step }: PlacedStep, { solutions }: Procedure): Doing {
  const { chemistry } = step
  if (chemistry?.kind === 'full-rinse' || says(step.say, RINSES)) return 'rinse'
  if (chemistry?.kind !== 'use') return 'other'
  const names = solutions.filter(({ id }) => chemistry.solutions.includes(id)).map(({ name }) => name)
  if (names.some((name) => says(name, SANITIZER))) return 'sanitize'
  return names.some((name) => says(name, CLEANER)) ? 'clean' : 'other'
}

/** Steps of one place that do `after` when the last thing done was a sanitizing, and no later one mends it. */
function undoing(procedure: Procedure, after: Doing): readonly PlacedStep[] {
  const found = stepsByPlace(procedure).flatMap((steps) => {
    const doings = steps.map((placed) => doingOf(placed, procedure))
    return steps.filter(
      (_, index) =>
        doings[index] === after &&
        doings.slice(0, index).includes('sanitize') &&
        !doings.slice(index + 1).includes('sanitize')
    )
  })
  return [...new Map(found.map((placed) => [placed.step.id, placed])).values()]
}

const cleanedAfter: Rule = {
  id: 'cleaned-after-sanitizing',
  weight: 'error',
  reason: 'Cleaner takes the sanitizer off, and soil that is sanitized first stays alive below.',
  source: SOURCE,
  find: (procedure) =>
    undoing(procedure, 'clean').map(({ path }) => ({
      path,
      what: 'This cleans after the sanitizer, and nothing sanitizes again.',
      mend: 'Clean first, and sanitize last.'
    }))
}

const rinsedAfter: Rule = {
  id: 'rinsed-after-sanitizing',
  weight: 'warning',
  reason: 'Rinse water brings germs back.',
  source: SOURCE,
  find: (procedure) =>
    undoing(procedure, 'rinse').map(({ path }) => ({
      path,
      what: 'This rinses the sanitizer off again.',
      mend: 'Let it drain and dry in the air, unless the product label asks for a rinse: then say so.'
    }))
}

export const SANITIZING: readonly Rule[] = [cleanedAfter, rinsedAfter]
