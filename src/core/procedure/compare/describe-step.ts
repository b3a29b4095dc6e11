/** A step as a list of facts, each under a name of its own: two versions of it differ where a fact does. */
import type { Caution, Check, HeldTo, Place, ReadingUnit, Step, Text, WaitKind } from '../procedure.ts'

/** What somebody who reads a difference looks for first. */
export type FactKind = 'spoken' | 'wait' | 'limit' | 'order' | 'other'

export type FactName =
  | 'say'
  | 'more'
  | 'why'
  | 'place'
  | 'hands'
  | 'caution'
  | 'confirm'
  | 'wait-kind'
  | 'wait-least'
  | 'wait-most'
  | 'wait-source'
  | 'wait-of'
  | 'late-say'
  | 'late-redo'
  | 'question'
  | 'good-answer'
  | 'reading'
  | 'least'
  | 'most'
  | 'limit-source'
  | 'held-to'
  | 'counted'
  | 'correction'
  | 'again'
  | 'use'
  | 'full-rinse'
  | 'take'
  | 'free'

export interface Fact {
  readonly kind: FactKind
  readonly name: FactName
  /** Which of several, from 1; 0 where there is only one. */
  readonly number: number
  /** A text in its languages, ids, seconds, or figures with their unit: whoever shows it writes it out. */
  readonly value: FactValue
}

export type FactValue =
  | { readonly kind: 'text'; readonly text: Text }
  | { readonly kind: 'seconds'; readonly seconds: number }
  | { readonly kind: 'amount'; readonly amount: number; readonly unit: ReadingUnit }
  | { readonly kind: 'wait'; readonly wait: WaitKind }
  | { readonly kind: 'caution'; readonly caution: Caution }
  /** A word of the format, such as `contact` or `yes`. */
  | { readonly kind: 'word'; readonly word: string }
  | {
      readonly kind: 'ids'
      readonly of: 'sides' | 'parts' | 'solutions' | 'tools' | 'steps'
      readonly ids: readonly string[]
    }
  /** A limit of the rules that a version is held to. */
  | { readonly kind: 'held'; readonly to: HeldTo }
  | { readonly kind: 'rounds'; readonly from: string; readonly atLeast: number; readonly atMost: number }

export function describeStep(step: Step): readonly Fact[] {
  const { on, say, more, why, handsSeconds, cautions, confirm, repeat, takes, frees } = step
  return [
    ...text('spoken', 'say', say),
    ...text('spoken', 'more', more),
    ...text('spoken', 'why', why),
    fact('order', 'place', placeValue(on)),
    fact('other', 'hands', { kind: 'seconds', seconds: handsSeconds }),
    ...cautions.map((caution, index) => fact('spoken', 'caution', { kind: 'caution', caution }, index + 1)),
    ...text('spoken', 'confirm', confirm),
    ...waitFacts(step),
    ...(step.check ? checkFacts(step.check) : []),
    ...(repeat ? [fact('limit', 'again', { kind: 'rounds', ...repeat })] : []),
    ...chemistryFacts(step),
    ...idsFact('take', 'tools', takes),
    ...idsFact('free', 'tools', frees)
  ]
}

function waitFacts({ wait }: Step): readonly Fact[] {
  if (!wait) return []
  return [
    fact('wait', 'wait-kind', { kind: 'wait', wait: wait.kind }),
    fact('wait', 'wait-least', { kind: 'seconds', seconds: wait.minSeconds }),
    ...(wait.maxSeconds === null ? [] : [fact('wait', 'wait-most', { kind: 'seconds', seconds: wait.maxSeconds })]),
    ...text('wait', 'wait-source', wait.source),
    ...(wait.of === undefined ? [] : [fact('wait', 'wait-of', { kind: 'word', word: wait.of })]),
    ...(wait.late ? text('spoken', 'late-say', wait.late.say) : []),
    ...(wait.late ? idsFact('late-redo', 'steps', [wait.late.redo]) : [])
  ]
}

function checkFacts(check: Check): readonly Fact[] {
  return [
    ...text('spoken', 'question', check.ask),
    ...limitFacts(check),
    ...check.corrections.flatMap((correction, index) => text('spoken', 'correction', correction, index + 1))
  ]
}

function limitFacts(check: Check): readonly Fact[] {
  switch (check.kind) {
    case 'yes-no':
      return [fact('limit', 'good-answer', { kind: 'word', word: check.good })]
    case 'count':
      return idsFact('counted', 'parts', check.parts, 'limit')
    case 'reading': {
      const { min, max, unit, source, heldTo } = check
      return [
        fact('limit', 'reading', { kind: 'word', word: check.of ?? check.reading }),
        ...(min === null ? [] : [fact('limit', 'least', { kind: 'amount', amount: min, unit })]),
        ...(max === null ? [] : [fact('limit', 'most', { kind: 'amount', amount: max, unit })]),
        ...text('limit', 'limit-source', source),
        ...(heldTo ?? []).map((held, index) => fact('limit', 'held-to', { kind: 'held', to: held }, index + 1))
      ]
    }
  }
}

function chemistryFacts({ chemistry }: Step): readonly Fact[] {
  if (!chemistry) return []
  return chemistry.kind === 'use'
    ? idsFact('use', 'solutions', chemistry.solutions)
    : [fact('other', 'full-rinse', { kind: 'word', word: 'full' })]
}

function placeValue(on: Place): FactValue {
  return on.kind === 'sides' ? { kind: 'ids', of: 'sides', ids: on.sides } : { kind: 'word', word: on.kind }
}

function fact(kind: FactKind, name: FactName, value: FactValue, number = 0): Fact {
  return { kind, name, number, value }
}

function text(kind: FactKind, name: FactName, words: Text | null, number = 0): readonly Fact[] {
  return words === null ? [] : [fact(kind, name, { kind: 'text', text: words }, number)]
}

function idsFact(
  name: FactName,
  of: Extract<FactValue, { kind: 'ids' }>['of'],
  ids: readonly string[],
  kind: FactKind = 'other'
): readonly Fact[] {
  return ids.length === 0 ? [] : [fact(kind, name, { kind: 'ids', of, ids }, 0)]
}
