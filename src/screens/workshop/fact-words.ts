/** What changed, in words. */
import type { FactValue } from '../../core/procedure/compare/describe-step.ts'
import type { Bound, HeldTo, Procedure, Text } from '../../core/procedure/procedure.ts'
import { unitName } from '../../core/talk/call-words.ts'
import { textFor } from '../../core/talk/quantities.ts'
import { optionName } from './option-name.ts'
import type { WorkshopWords } from './words.en.ts'

export interface Telling {
  readonly words: WorkshopWords
  /** Whose ids they are: names stand in both, or in the one that has them. */
  readonly procedures: readonly Procedure[]
  readonly language: string
}

/** Every language of a text, so that a change of one of them can be seen. */
export function wholeText(text: Text): string {
  const tongues = Object.entries(text)
  return tongues.length === 1 ? (tongues[0]?.[1] ?? '') : tongues.map(([tag, each]) => `${tag}: ${each}`).join(' · ')
}

export function valueWords(value: FactValue, { words, procedures, language }: Telling): string {
  switch (value.kind) {
    case 'text':
      return wholeText(value.text)
    case 'seconds':
      return words.difference.seconds(value.seconds)
    case 'amount':
      return `${value.amount} ${unitName(value.unit)}`
    case 'word':
      return value.word === 'machine' || value.word === 'bench'
        ? (words.places[value.word === 'machine' ? 'whole machine' : 'bench'] ?? value.word)
        : optionName(words.options, value.word)
    case 'ids':
      return value.ids.map((id) => nameOf(id, value.of, procedures, language)).join(', ')
    case 'wait':
      return words.waitKinds[value.wait]
    case 'caution': {
      const { signal, ...said } = value.caution
      const sentences = Object.keys(said.hazard).map((tag) => [
        tag,
        [said.hazard, said.consequence, said.avoid].map((part) => part[tag] ?? '').join(' ')
      ])
      return `${words.options[signal]}: ${wholeText(Object.fromEntries(sentences) as Text)}`
    }
    case 'held':
      return words.difference.held(value.to.title, rowsWords(value.to.rows, words), value.to.source)
    case 'rounds':
      return words.difference.rounds(nameOf(value.from, 'steps', procedures, language), value.atLeast, value.atMost)
  }
}

/** One row is enough; in a row each quantity must be within its bounds, in whichever unit it is read. */
function rowsWords(rows: HeldTo['rows'], { difference }: WorkshopWords): string {
  const bound = ({ min, max, unit }: Bound) => difference.bounds(min, max, unitName(unit))
  return difference.either(rows.map((row) => difference.together(row.map((units) => units.map(bound).join(' / ')))))
}

function nameOf(
  id: string,
  of: Extract<FactValue, { kind: 'ids' }>['of'],
  procedures: readonly Procedure[],
  language: string
): string {
  for (const procedure of procedures) {
    const found =
      of === 'steps'
        ? procedure.stages.flatMap(({ steps }) => steps).find((step) => step.id === id)?.say
        : procedure[of].find((thing) => thing.id === id)?.name
    if (found) return textFor(found, language)
  }
  return id
}
