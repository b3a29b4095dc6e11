/** Hands and moving parts. Words are matched in English; another language is judged by its English text. */
import type { Procedure } from '../procedure.ts'
import type { Rule } from './rule.ts'
import { english, stepsIn, type PlacedStep } from './steps-in.ts'

const HANDS_IN =
  /^(?:(?:When|With) [^,]+, )?(?:brush|build|grease|hook|lay|lift|loosen|peel|pull|push|put|reach|remove|rub|scrape|scrub|slide|take|tighten|unhook|unscrew|wipe)\b/i
const DRIVEN = /\b(beaters?|agitator|auger|spirals?|drive (?:hub|shaft)|hubs?|rear bearing|blade)\b/i
const OFF = /\b(?:power|plug|switch)\b.*\b(?:is|are|stays?) (?:off|out)\b|\bunplugged\b|\block(?:ed)? out\b/i
const ON = /\bpower switch on\b|\bput in the plug\b|\bplug (?:it|the machine) in\b|\bturn the (?:power|machine) on\b/i
const MOTION =
  /\b(?:beater|agitator|auger|spiral|hub|drive|pump|blade|motor)s?\b.*\b(?:turn|move|spin|start|run)s?\b|\b(?:turn|mov|spinn?|rotat)ing\b/i

/** Steps with whether power was told to be off, and proved by a whole phrase, when each begins. */
function withPower(procedure: Procedure): readonly (PlacedStep & { readonly isProved: boolean })[] {
  let isProved = false
  return stepsIn(procedure).map((placed) => {
    const { step } = placed
    const before = { ...placed, isProved: isProved || OFF.test(english(step.confirm)) }
    if (step.on.kind === 'machine' && (OFF.test(english(step.confirm)) || OFF.test(english(step.check?.ask))))
      isProved = true
    if (ON.test(english(step.say))) isProved = false
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
      const say = english(step.say)
      if (isProved || step.on.kind === 'bench' || !HANDS_IN.test(say) || !DRIVEN.test(say)) return []
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
        ({ signal, hazard }) => (signal === 'danger' || signal === 'warning') && MOTION.test(english(hazard))
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
