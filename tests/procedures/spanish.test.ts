/** The Spanish of the shipped procedures against their English, published writing rules, and the ears that listen for Spanish. */
import { describe, expect, it } from 'vitest'
import { commandIn } from '../../src/core/procedure/lint/hearing.ts'
import { sentencesIn, wordsIn } from '../../src/core/procedure/lint/steps-in.ts'
import type { Text } from '../../src/core/procedure/procedure.ts'
import { inUnits } from '../../src/core/talk/quantities.ts'
import { vocabularyEs } from '../../src/core/talk/vocabulary.es.ts'
import { isEveryday } from '../../src/core/talk/everyday.ts'
import { SHIPPED } from './shipped-files.ts'
import { stepTexts } from './step-texts.ts'

function textsIn(value: unknown): readonly Text[] {
  if (Array.isArray(value)) return value.flatMap(textsIn)
  if (typeof value !== 'object' || value === null) return []
  return 'en' in value ? [value as Text] : Object.values(value).flatMap(textsIn)
}

const figures = (words: string) => (words.match(/\d+(?:\.\d+)*/g) ?? []).sort()
const amounts = (words: string) => words.match(/\{[^}]*\}/g) ?? []
const unlike = (texts: readonly Text[], found: (words: string) => readonly string[]) =>
  texts.filter(({ en = '', es = '' }) => String(found(en)) !== String(found(es)))

describe.each(SHIPPED)('$name', ({ procedure }) => {
  const all = textsIn(procedure)
  const spanish = stepTexts(procedure, 'es')

  it('has every text in both languages', () => {
    expect(procedure.languages).toEqual(['en', 'es'])
    expect(all.length).toBeGreaterThan(100)
    expect(all.filter(({ en, es }) => !en || !es)).toEqual([])
  })

  it('has the same figures and amounts in both', () => {
    expect(unlike(all, figures)).toEqual([])
    expect(unlike(all, amounts)).toEqual([])
  })

  it('says as many sentences in both where something is spoken, and none too long', () => {
    // ASD-STE100, rule 5.1, by the same figure: no rule for Spanish was found.
    const spoken = spanish.filter(({ place }) => place !== 'source')
    const long = spoken.filter(({ text }) =>
      sentencesIn(inUnits(text, 'metric')).some((sentence) => wordsIn(sentence).length > 20)
    )
    expect(long).toEqual([])
    expect(spoken.filter(({ text }) => sentencesIn(text).length > 3)).toEqual([])
  })

  it('keeps each headline to fourteen words', () => {
    const headlines = spanish.filter(({ place }) => place === 'say')
    expect(headlines.filter(({ text }) => wordsIn(inUnits(text, 'us')).length > 14)).toEqual([])
  })

  it('says no word that the ears could take for a command, and guards with no everyday phrase', () => {
    expect(spanish.filter(({ text }) => commandIn(text, 'es') !== null)).toEqual([])
    expect(spanish.filter(({ place, text }) => place === 'confirm' && isEveryday(text, vocabularyEs))).toEqual([])
  })

  it('is polite and addresses nobody as tú', () => {
    expect(
      spanish.filter(({ text }) => /(?<!\p{L})(?:tú|tu|tus|ti|contigo|vosotros|vuestr[oa]s?)(?!\p{L})/iu.test(text))
    ).toEqual([])
  })
})
