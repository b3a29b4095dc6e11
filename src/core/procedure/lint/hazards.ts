/** Hazards and the cautions that have to come before them. */
import type { Step } from '../procedure.ts'
import type { Rule } from './rule.ts'
import { says, spanishStem, type Patterns } from './reading.ts'
import { stepsByPlace, type PlacedStep } from './steps-in.ts'

interface Hazard {
  readonly id: string
  readonly reason: string
  readonly what: string
  readonly meets: (step: Step, solutions: ReadonlyMap<string, string>) => boolean
  /** In hazard or consequence of a caution. */
  readonly told: Patterns
}

const HAZARDS: readonly Hazard[] = [
  {
    id: 'chemical-without-caution',
    reason: 'Concentrate burns skin and eyes, and some products must not meet.',
    what: 'A chemical is used, and no caution before it told of skin, eyes or gas.',
    meets: (step, solutions) =>
      step.chemistry?.kind === 'use' && step.chemistry.solutions.some((id) => solutions.get(id) !== undefined),
    told: { en: /\b(?:burn|skin|eyes?|gas|splash)/i, es: spanishStem('quem|piel|ojos?|gas|salpic') }
  },
  {
    id: 'hot-water-without-caution',
    reason: 'Water of 60 °C burns in seconds.',
    what: 'Hot water is used, and no caution before it told of burns.',
    meets: (step) =>
      says(step.say, {
        en: /\b(?:hot water|boiling|scald|steam)/i,
        es: spanishStem('agua (?:muy )?caliente|hirviendo|hierv|escald|vapor')
      }),
    told: { en: /\b(?:burn|scald|hot)/i, es: spanishStem('quem|escald|caliente') }
  },
  {
    id: 'blade-without-caution',
    reason: 'A blade cuts through a glove.',
    what: 'A blade is handled, and no caution before it told of cuts.',
    meets: (step) =>
      says(step.say, {
        en: /\b(?:blades?|knife|knives)\b(?! guard)/i,
        es: spanishStem('(?<!protector de la )(?:cuchillas?|cuchillos?)')
      }),
    told: { en: /\b(?:cut|sharp)/i, es: spanishStem('cort|filos') }
  }
]

function ruleFor({ id, reason, what, meets, told }: Hazard): Rule {
  return {
    id,
    weight: 'error',
    reason,
    source:
      'ANSI Z535.6 and IEC 82079-1 as quoted by secondary pages: hazard, consequence and avoidance before the step.',
    find: (procedure) => {
      const solutions = new Map(
        procedure.solutions.flatMap(({ id: name, chemical }) => (chemical ? [[name, chemical]] : []))
      )
      const bare = stepsByPlace(procedure).flatMap((steps) => {
        const first = steps.findIndex(({ step }) => meets(step, solutions))
        const before = steps.slice(0, first + 1)
        return first < 0 || before.some((placed) => tells(placed, told)) ? [] : steps.slice(first, first + 1)
      })
      return [...new Map(bare.map((placed) => [placed.step.id, placed])).values()].map(({ path }) => ({
        path,
        what,
        mend: 'Add a caution to this step, with what can happen and how to avoid it.'
      }))
    }
  }
}

function tells({ step }: PlacedStep, told: Patterns): boolean {
  return step.cautions.some(({ hazard, consequence }) => says(hazard, told) || says(consequence, told))
}

export const HAZARD_RULES: readonly Rule[] = HAZARDS.map(ruleFor)
