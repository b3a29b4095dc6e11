/** Grease only where it belongs. */
import type { Rule } from './rule.ts'
import { LANGUAGES } from '../../talk/languages.ts'
import { spanish, type Patterns } from './reading.ts'
import { stepsIn } from './steps-in.ts'

const GREASES: Patterns = { en: /\bgrease\b/, es: spanish('engrase[mn]?|engrasar|grasa') }
const UNGREASED: Patterns = {
  en: /\b(?:no|without|never|free of)\b/,
  es: spanish('sin|nunca|no|quite la grasa.*|limpie.*')
}

/** Each word of a name may be said of several: "tubos de alimentación". */
function manyOr(name: string): RegExp {
  const words = name.split(/\s+/).map((word) => `${word.replaceAll(/[^\p{L}\d]/gu, '.')}(?:e?s)?`)
  return new RegExp(words.join('\\s+'), 'u')
}

const greasedDryPart: Rule = {
  id: 'dry-part-greased',
  weight: 'error',
  reason: 'A greased hex end or gasket slips, and grease sheds into food.',
  source: '21 CFR 178.3570: the least amount that is needed, where it is needed; which parts is common practice.',
  find: (procedure) => {
    const dry = procedure.parts.filter(({ care }) => care === 'dry')
    return stepsIn(procedure).flatMap(({ step, path }) => {
      const [part] = LANGUAGES.flatMap((language) => {
        const say = step.say[language]?.toLowerCase() ?? ''
        const named = dry.map(({ name }) => name[language]?.toLowerCase() ?? '')
        return GREASES[language].test(say) && !UNGREASED[language].test(say)
          ? named.filter((name) => name !== '' && manyOr(name).test(say))
          : []
      })
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
