/** Grease only where it belongs. */
import type { Rule } from './rule.ts'
import { english, stepsIn } from './steps-in.ts'

const greasedDryPart: Rule = {
  id: 'dry-part-greased',
  weight: 'error',
  reason: 'A greased hex end or gasket slips, and grease sheds into food.',
  source: '21 CFR 178.3570: the least amount that is needed, where it is needed; which parts is common practice.',
  find: (procedure) => {
    const dry = procedure.parts.filter(({ care }) => care === 'dry').map(({ name }) => english(name).toLowerCase())
    return stepsIn(procedure).flatMap(({ step, path }) => {
      const say = english(step.say).toLowerCase()
      const part =
        /\bgrease\b/.test(say) &&
        !/\b(?:no|without|never|free of)\b/.test(say) &&
        dry.find((name) => name !== '' && say.includes(name))
      return part
        ? [
            {
              path: [...path, 'say'],
              what: `"${part}" is greased here, and must be kept dry by the list of parts.`,
              mend: 'Change its care in the list of parts, or leave it out here.'
            }
          ]
        : []
    })
  }
}

export const PARTS_CARE: readonly Rule[] = [greasedDryPart]
