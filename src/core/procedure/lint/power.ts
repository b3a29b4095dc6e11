/** Hands and moving parts. */
import type { Procedure } from '../procedure.ts'
import type { Rule } from './rule.ts'
import { says, spanish, spanishStem, type Patterns } from './reading.ts'
import { stepsIn, type PlacedStep } from './steps-in.ts'

const HANDS_IN: Patterns = {
  en: /^(?:(?:When|With) [^,]+, )?(?:brush|build|grease|hook|lay|lift|loosen|peel|pull|push|put|reach|remove|rub|scrape|scrub|slide|take|tighten|unhook|unscrew|wipe)\b/i,
  es: /^(?:(?:Cuando|Con) [^,]+, )?(?:afloje|apriete|arme|cepille|deslice|despegue|destornille|desenganche|empuje|enganche|engrase|frote|jale|levante|limpie|meta|moje|pase|ponga(?! el protector)|quite|raspe|saque|talle|tire de|tome)(?!\p{L})/iu
}
const DRIVEN: Patterns = {
  en: /\b(beaters?|agitator|auger|spirals?|drive (?:hub|shaft)|hubs?|rear bearing|blade)\b/i,
  es: spanish('batidor(?:es)?|agitador|sinfín|espiral(?:es)?|(?:eje|cubo) motriz|cojinete trasero|cuchilla')
}
const OFF: Patterns = {
  en: /\b(?:power|plug|switch)\b.*\b(?:is|are|stays?) (?:off|out)\b|\bunplugged\b|\block(?:ed)? out\b/i,
  es: spanish(
    'sin corriente|desenchufad[oa]|(?:interruptor|corriente|enchufe) .*(?:apagad[oa]|cortada|desconectado|fuera)'
  )
}
const ON: Patterns = {
  en: /\bpower switch on\b|\bput in the plug\b|\bplug (?:it|the machine) in\b|\bturn the (?:power|machine) on\b/i,
  es: spanish('encienda el interruptor|conecte el enchufe|conéctel[oa]|encienda la (?:máquina|corriente)|enciéndala')
}
const MOTION: Patterns = {
  en: /\b(?:beater|agitator|auger|spiral|hub|drive|pump|blade|motor)s?\b.*\b(?:turn|move|spin|start|run)s?\b|\b(?:turn|mov|spinn?|rotat)ing\b/i,
  es: spanishStem(
    '(?:batidor|agitador|sinfín|espiral|cubo|mando|eje|bomba|cuchilla|motor)(?:es|s)?(?!\\p{L}).* (?:gir|muev|arran|march)|que giran?(?!\\p{L})|girando'
  )
}

/** Steps with whether power was told to be off, and proved by a whole phrase, when each begins. */
function withPower(procedure: Procedure): readonly (PlacedStep & { readonly isProved: boolean })[] {
  let isProved = false
  return stepsIn(procedure).map((placed) => {
    const { step } = placed
    const before = { ...placed, isProved: isProved || says(step.confirm, OFF) }
    if (step.on.kind === 'machine' && (says(step.confirm, OFF) || says(step.check?.ask, OFF))) isProved = true
    if (says(step.say, ON)) isProved = false
    return before
  })
}

const handsIn: Rule = {
  id: 'hands-in-under-power',
  weight: 'error',
  reason: 'A beater, a spiral or a blade that starts takes fingers off.',
  source: '29 CFR 1910.147 and 1910.212: energy is isolated, and that is proved, before hands go in.',
  find: (procedure) =>
    withPower(procedure).flatMap(({ step, path, isProved }) => {
      if (isProved || step.on.kind === 'bench' || !says(step.say, HANDS_IN) || !says(step.say, DRIVEN)) return []
      return [
        {
          path: [...path, 'say'],
          what: 'Hands go to a driven part while nothing before has proved that the power is off.',
          mend: 'Put a whole-machine step before it that turns power off, and one that proves it with "confirm: power is off".'
        }
      ]
    })
}

const everydayWord: Rule = {
  id: 'moving-part-by-everyday-word',
  weight: 'error',
  reason: 'The everyday word is said without looking; beside moving parts it must be a whole phrase.',
  source: 'ANSI Z535.4, signal word warning: can kill or maim; the phrase is common practice, no source.',
  find: (procedure) =>
    stepsIn(procedure).flatMap(({ step, path }) => {
      const warns = step.cautions.some(
        ({ signal, hazard }) => (signal === 'danger' || signal === 'warning') && says(hazard, MOTION)
      )
      return warns && step.confirm === null && step.check === null
        ? [
            {
              path,
              what: `Step "${step.id}" warns of moving parts and takes the everyday word for an answer.`,
              mend: 'Add "confirm" with a whole phrase, such as "hands are clear".'
            }
          ]
        : []
    })
}

export const POWER: readonly Rule[] = [handsIn, everydayWord]
