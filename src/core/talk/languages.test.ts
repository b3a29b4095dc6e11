import { describe, expect, it, test } from 'vitest'
import { aCourse } from '../../../tests/helpers/a-procedure.ts'
import { likelyLanguage, LANGUAGES, talkIn } from './languages.ts'
import { hear } from './hear.ts'
import { PLAIN_INTENTS } from './intent.ts'
import { tokens } from './tokens.ts'

test.each([
  [['es-MX', 'en'], 'es'],
  [['es-419'], 'es'],
  [['en-US', 'es'], 'en'],
  [['fr', 'ES'], 'es'],
  [['de'], 'en'],
  [[], 'en']
] as const)('of %j, %s is spoken here', (tags, language) => {
  expect(likelyLanguage(tags)).toBe(language)
})

const talks = await Promise.all(LANGUAGES.map(talkIn))

describe.each(talks)('the vocabulary of $language', ({ language, vocabulary, words }) => {
  const course = aCourse('  - {stage: A, steps: [{step: a, say: Go., hands: 1 s}]}')
  const calm = { course, language, phrase: null, numbers: false, steps: false, yesNo: false }
  const every = PLAIN_INTENTS.flatMap((type) => vocabulary.phrases[type].map((phrase) => ({ type, phrase })))

  it.each(every)('takes "$phrase" for $type and nothing else, whatever is asked', ({ type, phrase }) => {
    for (const asked of [{}, { yesNo: true }, { numbers: true }])
      expect(hear([phrase], vocabulary, { ...calm, ...asked })).toMatchObject({ kind: 'meant', intent: { type } })
  })

  it('has no phrase for two intents, and none that is ambiguous elsewhere', () => {
    const all = [...every.map(({ phrase }) => phrase), ...Object.keys(vocabulary.ambiguous)].map((one) =>
      tokens(one).join(' ')
    )
    expect(all.filter((phrase, index) => all.indexOf(phrase) < index)).toEqual([])
  })

  it('begins the phrases that are used most with one of two words or more', () => {
    const often = ['done', 'next', 'repeat', 'take-back', 'pause', 'resume', 'how-long'] as const
    expect(often.filter((type) => tokens(vocabulary.phrases[type][0] ?? '').length < 2)).toEqual([])
  })

  it.each(PLAIN_INTENTS)('hears what the operator is taught to say for %s', (type) => {
    expect(hear([words.phrase(type)], vocabulary, calm)).toMatchObject({ kind: 'meant', intent: { type } })
  })

  it('writes what is compared as it is compared', () => {
    const { ambiguous, filler, beforeNumber, afterNumber, bench, machine, units } = vocabulary
    const compared = [
      ...Object.keys(ambiguous),
      ...[...filler.before, ...filler.after, ...beforeNumber, ...afterNumber, ...bench, ...machine],
      ...units.map(([heard]) => heard)
    ]
    expect(compared.filter((one) => tokens(one).join(' ') !== one)).toEqual([])
  })
})
