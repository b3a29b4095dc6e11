/** What changed, in words. */
import type { FactValue } from '../../core/procedure/compare/describe-step.ts'
import type { Procedure, Text } from '../../core/procedure/procedure.ts'
import type { WorkshopWords } from './words.en.ts'

const UNITS = { '[ppm]': 'ppm', Cel: '°C', '[degF]': '°F', '[pH]': 'pH' } as const

export interface Telling {
  readonly words: WorkshopWords
  /** Whose ids they are: names stand in both, or in the one that has them. */
  readonly procedures: readonly Procedure[]
  readonly language: string
}

export function textOf(text: Text, language: string): string {
  return text[language] ?? Object.values(text)[0] ?? ''
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
      return `${value.amount} ${UNITS[value.unit]}`
    case 'word':
      return value.word === 'machine' || value.word === 'bench'
        ? (words.places[value.word === 'machine' ? 'whole machine' : 'bench'] ?? value.word)
        : (words.options[value.word] ?? value.word)
    case 'ids':
      return value.ids.map((id) => nameOf(id, value.of, procedures, language)).join(', ')
    case 'rounds':
      return words.difference.rounds(nameOf(value.from, 'steps', procedures, language), value.atLeast, value.atMost)
  }
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
    if (found) return textOf(found, language)
  }
  return id
}
