/** The rules for authors read Spanish as they read English: a procedure spoiled in the same way is found out in either. */
import { describe, expect, test } from 'vitest'
import { lint } from '../../src/core/procedure/lint/lint.ts'
import type { Procedure, Step, Text } from '../../src/core/procedure/procedure.ts'
import { NO_RULES } from '../../src/core/sanitizer/shop-rules.ts'
import { SHIPPED } from './shipped-files.ts'

function isText(value: object): value is Text {
  return 'en' in value && 'es' in value
}

/** As if it had been written in that language alone. */
function onlyIn<T>(value: T, language: string): T {
  if (Array.isArray(value)) return value.map((one) => onlyIn<unknown>(one, language)) as T
  if (typeof value !== 'object' || value === null) return value
  if (isText(value)) return { [language]: (value as Text)[language] ?? '' } as T
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, onlyIn<unknown>(one, language)])) as T
}

function withSteps(procedure: Procedure, change: (step: Step) => Step): Procedure {
  return { ...procedure, stages: procedure.stages.map((stage) => ({ ...stage, steps: stage.steps.map(change) })) }
}

const backwards = (procedure: Procedure): Procedure => ({
  ...procedure,
  stages: procedure.stages.toReversed().map((stage) => ({ ...stage, steps: stage.steps.toReversed() }))
})

/** What somebody may do to a good procedure. */
const SPOILED: readonly (readonly [name: string, spoil: (procedure: Procedure) => Procedure])[] = [
  ['as it is', (procedure) => procedure],
  ['no caution', (procedure) => withSteps(procedure, (step) => ({ ...step, cautions: [] }))],
  ['no confirming phrase', (procedure) => withSteps(procedure, (step) => ({ ...step, confirm: null }))],
  ['all of it backwards', backwards],
  [
    'no grease anywhere',
    (procedure) => ({ ...procedure, parts: procedure.parts.map((part) => ({ ...part, care: 'dry' as const })) })
  ]
]
/** They count words, which languages need more or fewer of, or go by neither. */
const BY_LENGTH = ['too-long-to-hear', 'too-many-facts', 'command-word']

const foundIn = (procedure: Procedure) =>
  lint(procedure, NO_RULES)
    .filter(({ rule }) => !BY_LENGTH.includes(rule.id))
    .map(({ rule, path }) => `${rule.id} ${path.join('.')}`)

describe.each(SHIPPED)('$name', ({ procedure }) => {
  test.each(SPOILED)('%s', (_, spoil) => {
    const spoiled = spoil(procedure)
    const [english, spanish] = ['en', 'es'].map((language) =>
      foundIn({ ...onlyIn(spoiled, language), languages: [language] })
    )
    expect(spanish).toEqual(english)
  })
})

test('spoiling is found out at all', () => {
  const all = SHIPPED.flatMap(({ procedure }) =>
    SPOILED.flatMap(([, spoil]) => foundIn(onlyIn(spoil(procedure), 'es')))
  )
  expect(new Set(all.map((found) => found.split(' ')[0])).size).toBeGreaterThan(6)
})
