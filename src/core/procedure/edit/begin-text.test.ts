import { describe, expect, test } from 'vitest'
import { NO_RULES } from '../../sanitizer/shop-rules.ts'
import { readDraft } from '../draft/read-draft.ts'
import { applyEdits } from './edit.ts'
import { beginText } from './begin-text.ts'
import { emptyProcedure } from './empty-procedure.ts'
import { beginWordsEn } from './words.en.ts'

describe.each(['en', 'es'])('in %s', (language) => {
  const begin = (key: Parameters<typeof beginText>[0]) => beginText(key, [language])

  test('a new procedure, with one of each part that the form adds, needs nothing but better words', () => {
    const step = ['stages', 0, 'steps', 0]
    const caution = { signal: 'caution', hazard: begin('hazard'), consequence: begin('consequence') }
    const check = { question: begin('question'), 'if not': [begin('again'), begin('missing'), begin('correction')] }
    const limits = { reading: 'strength', unit: 'ppm', 'at least': 100, source: begin('source') }
    const read = { question: begin('reading'), ...limits, 'if not': [begin('mix')] }
    const wait = { for: 'soak', 'at least': '1 min', source: begin('source') }
    const steps = (at: number, value: object) => ({ kind: 'insert', list: ['stages', 0, 'steps'], at, value }) as const
    const edited = applyEdits(emptyProcedure('new', 'Nuevo', language), [
      { kind: 'set', path: [...step, 'cautions'], value: [{ ...caution, avoid: begin('avoid') }] },
      { kind: 'set', path: [...step, 'ask'], value: check },
      steps(1, { step: 'soak', say: begin('late'), hands: '5 s', wait }),
      steps(2, {
        step: 'measure',
        say: begin('gather'),
        more: begin('count'),
        why: begin('directions'),
        hands: '5 s',
        read
      })
    ])
    const { checked } = readDraft(edited.kind === 'edited' ? edited.text : '', NO_RULES)
    expect(checked).toMatchObject({ kind: 'sound', findings: [], procedure: { languages: [language] } })
  })
})

test('each language of a procedure has its own words; one that is not known has those that its author writes', () => {
  const [en, es] = [beginWordsEn.again, beginText('again', ['es'])]
  expect(beginText('again', ['en', 'es'])).toEqual({ en, es })
  expect(Object.keys(beginText('again', ['es', 'en']))).toEqual(['es', 'en'])
  expect(beginText('again', ['fr'])).toBe(en)
  expect(beginText('again', ['fr', 'es', 'de'])).toEqual({ fr: en, es })
})
