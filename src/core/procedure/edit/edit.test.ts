import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { parse } from 'yaml'
import { EVERYTHING } from '../../../../tests/helpers/a-procedure.ts'
import { SHIPPED_FILES } from '../../../../tests/procedures/shipped-files.ts'
import { listAt, shownWords, valueAt, withWords, wordsEdit, wordsIn } from './draft-values.ts'
import { applyEdits, type Edit, type Path } from './edit.ts'
import { begun, redone, undone, written } from './history.ts'
import { newId } from './new-id.ts'

const TEXTS = [EVERYTHING, ...SHIPPED_FILES.map(({ text }) => text)]
const STEPS: Path = ['stages', 0, 'steps']

function edited(text: string, ...edits: readonly Edit[]): string {
  const result = applyEdits(text, edits)
  if (result.kind === 'refused') throw new Error(result.why)
  return result.text
}

describe('a change', () => {
  const text = `# about the file
procedure: a # the id
title: A
stages:
  - stage: Rinse
    steps:
      # why this comes first
      - step: one
        hands: 20 s
      - { step: two, say: Fill it., hands: 5 s }
`
  it('leaves comments and the rest as they are', () => {
    const changed = edited(text, { kind: 'set', path: ['stages', 0, 'steps', 1, 'say'], value: 'Empty it.' })
    expect(changed).toBe(text.replace('Fill it.', 'Empty it.'))
  })

  it('puts a new key where its reader looks for it', () => {
    const changed = edited(text, { kind: 'set', path: [...STEPS, 0, 'say'], value: 'Go: now' })
    expect(changed).toContain("- step: one\n        say: 'Go: now'\n        hands: 20 s")
  })

  it('begins maps and lists that are missing, and takes empty ones away', () => {
    const more = edited(
      text,
      { kind: 'set', path: [...STEPS, 0, 'wait', 'late', 'redo'], value: 'one' },
      { kind: 'insert', list: [...STEPS, 0, 'cautions'], at: 0, value: { signal: 'notice' } }
    )
    expect(valueAt(parse(more), [...STEPS, 0])).toMatchObject({
      wait: { late: { redo: 'one' } },
      cautions: [{ signal: 'notice' }]
    })
    const less = edited(more, { kind: 'remove', list: [...STEPS, 0, 'cautions'], at: 0 })
    expect(valueAt(parse(less), [...STEPS, 0])).not.toHaveProperty('cautions')
  })

  it('moves an entry with its comment, also to another list', () => {
    const moved = edited(text, { kind: 'move', from: { list: STEPS, at: 0 }, to: { list: ['tools'], at: 0 } })
    expect(moved).toMatch(/tools:\n +# why this comes first\n +- step: one/)
  })

  it.each<[string, Edit]>([
    ['an entry that is not there', { kind: 'remove', list: STEPS, at: 2 }],
    ['a place behind the end', { kind: 'insert', list: STEPS, at: 3, value: {} }],
    ['a key of words', { kind: 'set', path: ['title', 'en'], value: 'x' }],
    ['a list that is none', { kind: 'insert', list: ['title'], at: 0, value: 'x' }],
    ['a key that is not there', { kind: 'clear', path: ['summary'] }]
  ])('is refused for %s', (_, edit) => {
    expect(applyEdits(text, [edit])).toEqual({ kind: 'refused', why: 'no-such-place' })
  })

  it('begins no map where a list belongs', () => {
    const empty = 'procedure: a\ntitle: A\n'
    const step: Edit = { kind: 'insert', list: STEPS, at: 0, value: { step: 'one' } }
    expect(applyEdits(empty, [step]).kind).toBe('refused')
    const stage: Edit = { kind: 'insert', list: ['stages'], at: 0, value: { stage: 'Rinse' } }
    expect(parse(edited(empty, stage, step))).toMatchObject({ stages: [{ stage: 'Rinse', steps: [{ step: 'one' }] }] })
  })

  it('is refused while the text is no YAML', () => {
    expect(applyEdits('a: [', [{ kind: 'clear', path: ['a'] }])).toEqual({ kind: 'refused', why: 'unreadable' })
  })
})

const anyWords = fc.oneof(
  fc.string({ unit: 'grapheme', maxLength: 40 }),
  fc.constantFrom(
    '',
    ' ',
    'yes',
    'null',
    '3',
    '3.0',
    '- a',
    'a: b',
    '# no',
    '{7.6 L | 2 gal}',
    'a\nb',
    "it's",
    '&a',
    '"'
  )
)

/** What an edit should do, told on plain values. Null when there is no such place. */
function onValues(value: unknown, edit: Edit): boolean {
  const listOf = (path: Path) => listAt(value, path) as unknown[]
  switch (edit.kind) {
    case 'set': {
      const holder = valueAt(value, edit.path.slice(0, -1)) as Record<string, unknown>
      holder[String(edit.path.at(-1))] = edit.value
      return true
    }
    case 'clear': {
      const holder = valueAt(value, edit.path.slice(0, -1)) as Record<string, unknown>
      return delete holder[String(edit.path.at(-1))]
    }
    case 'insert':
      return listOf(edit.list).splice(edit.at, 0, edit.value).length === 0
    case 'remove':
      return listOf(edit.list).splice(edit.at, 1).length === 1
    case 'move':
      listOf(edit.to.list).splice(edit.to.at, 0, ...listOf(edit.from.list).splice(edit.from.at, 1))
      return true
  }
}

/** An edit that fits what is there; lists keep an entry, because an emptied one goes with its key. */
function fitting(value: unknown, seed: readonly number[], words: string): Edit {
  const [kind = 0, a = 0, b = 0, c = 0] = seed
  const stages = listAt(value, ['stages'])
  const [from, to] = [a % stages.length, b % stages.length]
  const [source, target]: [Path, Path] = [
    ['stages', from, 'steps'],
    ['stages', to, 'steps']
  ]
  const count = listAt(value, source).length
  const at = c % count
  const path: Path = [...source, at]
  if (kind === 0) return { kind: 'set', path: [...path, 'say'], value: words }
  if (kind === 1) return { kind: 'set', path: [...path, 'more'], value: { en: words, es: `${words}!` } }
  if (kind === 2) return { kind: 'insert', list: target, at: 0, value: { step: 'new', say: words, hands: '5 s' } }
  if (kind === 3 && count > 1) return { kind: 'remove', list: source, at }
  if (kind === 4 && valueAt(value, [...path, 'why']) !== undefined) return { kind: 'clear', path: [...path, 'why'] }
  if (from !== to && count === 1) return { kind: 'set', path: ['title'], value: words }
  const room = listAt(value, target).length + (from === to ? 0 : 1)
  return { kind: 'move', from: { list: source, at }, to: { list: target, at: b % room } }
}

const anySeeds = fc.array(fc.tuple(fc.array(fc.nat(1000), { minLength: 4, maxLength: 4 }), fc.nat(5), anyWords), {
  minLength: 1,
  maxLength: 6
})

test('whatever is changed, the text holds just that, and going back gives the very texts', () => {
  fc.assert(
    fc.property(fc.constantFrom(...TEXTS), anySeeds, (text, seeds) => {
      const value: unknown = parse(text)
      let history = begun(text)
      const texts = [text]
      for (const [[, ...places], kind, words] of seeds) {
        const edit = fitting(value, [kind, ...places], words)
        onValues(value, structuredClone(edit))
        history = written(history, edited(history.present, edit))
        if (history.present !== texts.at(-1)) texts.push(history.present)
        expect(parse(history.present)).toEqual(value)
      }
      for (const before of texts.slice(0, -1).toReversed()) {
        history = undone(history)
        expect(history.present).toBe(before)
      }
      for (const after of texts.slice(1)) {
        history = redone(history)
        expect(history.present).toBe(after)
      }
    }),
    { numRuns: 20 }
  )
})

test('who only looks loses no step forward', () => {
  const back = undone(written(begun('a'), 'b'))
  expect(written(back, 'a')).toBe(back)
  expect(redone(back).present).toBe('b')
})

test('words of one language are written short, of several as one entry each', () => {
  const two = withWords('Fill it.', 'es', 'en', 'Llene.')
  expect(two).toEqual({ en: 'Fill it.', es: 'Llene.' })
  expect(wordsIn({ say: two }, ['say'], 'es', 'en')).toBe('Llene.')
  expect(wordsIn({ say: 'Fill it.' }, ['say'], 'es', 'en')).toBe('')
  expect(withWords(two, 'es', 'en', '')).toBe('Fill it.')
  expect([two, 'Fill it.'].map((say) => shownWords({ say }, ['say'], 'es', 'en'))).toEqual(['Llene.', 'Fill it.'])
  expect(withWords('Fill it.', 'en', 'en', '')).toBeUndefined()
  expect(withWords(undefined, 'es', 'en', 'Llene.')).toEqual({ es: 'Llene.' })
})

test('words in two languages are both kept, though the second did not know of the first', () => {
  const text = 'title: { en: A, es: B }\nsummary: C\n'
  const known: unknown = parse(text)
  const write = (path: string, language: string, words: string) => wordsEdit(known, [path], language, 'en', words)
  const both = ([write('title', 'en', 'D'), write('title', 'es', 'E')] as const).flatMap((edit) => edit ?? [])
  expect(parse(edited(text, ...both))).toMatchObject({ title: { en: 'D', es: 'E' } })
  const others = [write('summary', 'es', 'F'), write('title', 'es', '')].flatMap((edit) => edit ?? [])
  expect(parse(edited(text, ...others))).toEqual({ title: 'A', summary: { en: 'C', es: 'F' } })
  expect(write('machine', 'es', '')).toBeNull()
  expect(write('summary', 'en', '')).toEqual({ kind: 'clear', path: ['summary'] })
})

test('ids come from words, and are new', () => {
  expect(newId('Lave el Cepillo pequeño.', 'step', [])).toBe('lave-el-cepillo-pequeno')
  expect(newId('3 × rinse', 'step', ['rinse', 'rinse-2'])).toBe('rinse-3')
  expect(newId('!', 'step', ['step'])).toBe('step-2')
})
