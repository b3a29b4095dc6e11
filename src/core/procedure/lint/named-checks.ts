/** The checks that every procedure has to pass, as rules with a name, for whoever wants to know why. */
import type { CheckName } from '../problem.ts'

export interface NamedCheck {
  readonly id: string
  readonly reason: string
  readonly source: string
}

const FORMAT = 'The form of procedure files: procedures/README.md.'

export const NAMED_CHECKS: Readonly<Record<CheckName, NamedCheck>> = {
  yaml: { id: 'not-yaml', reason: 'What cannot be read cannot be carried out.', source: 'YAML 1.2.' },
  shape: {
    id: 'wrong-shape',
    reason: 'A key that is missing or misspelt would be left out in silence.',
    source: FORMAT
  },
  names: {
    id: 'name-used-twice',
    reason: 'A name must mean one thing: the voice, the repeats and the record go by it.',
    source: 'ASD-STE100, as described by secondary pages: one name for one thing.'
  },
  step: {
    id: 'step-cannot-be-done',
    reason: 'A wait, a check or a tool of this step contradicts itself or names what is not there.',
    source: FORMAT
  },
  order: {
    id: 'impossible-order',
    reason: 'Somebody would stand before a step that can never be begun, or go round for ever.',
    source: 'Worked out from the lanes, the whole-machine steps, the repeats and the tools.'
  },
  chemicals: {
    id: 'chemicals-without-rinse',
    reason: 'Acid or ammonia with hypochlorite gives off a gas that can kill.',
    source: 'Washington State Department of Health, as restated by secondary pages.'
  },
  parts: {
    id: 'part-not-put-back',
    reason: 'A part left off leaks, breaks the machine, or ends in the product.',
    source: 'Common practice, no source: what comes off is counted, and counted on again.'
  },
  translation: {
    id: 'missing-translation',
    reason: 'The voice would fall silent, or speak another language, in the middle of a run.',
    source: 'The languages that the procedure itself names.'
  },
  rules: {
    id: 'against-the-rules',
    reason: 'A limit that the rules of the shop never allow would stop every run.',
    source: 'The rule set and labels that the shop has chosen.'
  }
}
