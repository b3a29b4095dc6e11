/** All rules for authors, and what they find in a procedure. */
import { holdToRules } from '../../sanitizer/hold-to-rules.ts'
import type { ShopRules } from '../../sanitizer/shop-rules.ts'
import type { Procedure } from '../procedure.ts'
import { HAZARD_RULES } from './hazards.ts'
import { HEARING } from './hearing.ts'
import { PARTS_CARE } from './parts-care.ts'
import { POWER } from './power.ts'
import type { Finding, Rule } from './rule.ts'
import { SANITIZING } from './sanitizing.ts'
import { stepsIn } from './steps-in.ts'
import { TIMING } from './timing.ts'

/** `procedure` as it was written, before the rules of a shop were put into it. */
export function lint(procedure: Procedure, shop: ShopRules): readonly Finding[] {
  return rulesFor(shop).flatMap((rule) => rule.find(procedure).map((problem) => ({ ...problem, rule })))
}

export function rulesFor(shop: ShopRules): readonly Rule[] {
  return [...POWER, ...HAZARD_RULES, ...SANITIZING, ...PARTS_CARE, ...TIMING, shorterThanRules(shop), ...HEARING]
}

function shorterThanRules(shop: ShopRules): Rule {
  return {
    id: 'wait-below-rules',
    weight: 'warning',
    reason: 'The rules and labels of the shop ask for longer: it is published longer than it is written.',
    source: 'The rule set and labels that the shop has chosen.',
    find: (procedure) => {
      const held = stepsIn(holdToRules(procedure, shop))
      return stepsIn(procedure).flatMap(({ step, path }, index) => {
        const [written, asked] = [step.wait?.minSeconds ?? 0, held[index]?.step.wait?.minSeconds ?? 0]
        return asked > written
          ? [
              {
                path: [...path, 'wait', 'at least'],
                what: `${written} s is written, and ${asked} s is asked for.`,
                mend: `Write at least ${asked} s.`
              }
            ]
          : []
      })
    }
  }
}
