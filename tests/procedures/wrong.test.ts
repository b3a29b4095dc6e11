/** Shipped procedures, each spoiled in one way that somebody could mean well: the rule that is there for it finds it. */
import { expect, test } from 'vitest'
import { parse } from 'yaml'
import { checkDraft } from '../../src/core/procedure/draft/check-draft.ts'
import { idsAt, languagesIn, listAt, valueAt, withWords, wordsAt } from '../../src/core/procedure/edit/draft-values.ts'
import { applyEdits, type Edit, type Path } from '../../src/core/procedure/edit/edit.ts'
import { choose } from '../../src/core/sanitizer/shop-rules.ts'
import { RULE_SETS } from '../sanitizer/shipped-rule-sets.ts'
import { SHIPPED_FILES } from './shipped-files.ts'

const chosen = choose({ rules: 'us-food-code', labels: [] }, RULE_SETS)
if (chosen.kind === 'faulty') throw new Error(chosen.what)
const { shop } = chosen

const [SLICER, DRINKS, BOWLS] = ['slicer-four-hours', 'drink-lines', 'four-bowl-weekly'].map(
  (name) => SHIPPED_FILES.find((file) => file.name === `${name}.yaml`)?.text ?? ''
) as [string, string, string]

type Spoil = (text: string) => string

function step(text: string, id: string): Path {
  const value: unknown = parse(text)
  for (const [stage] of listAt(value, ['stages']).entries()) {
    const steps: Path = ['stages', stage, 'steps']
    const at = listAt(value, steps).findIndex((one) => wordsAt(one, ['step']) === id)
    if (at >= 0) return [...steps, at]
  }
  throw new Error(`no step ${id}`)
}

const change =
  (...edits: readonly ((text: string) => Edit)[]): Spoil =>
  (text) =>
    edits.reduce((before, edit) => {
      const edited = applyEdits(before, [edit(before)])
      if (edited.kind === 'refused') throw new Error(edited.why)
      return edited.text
    }, text)

const set = (id: string, keys: Path, value: unknown) => (text: string) =>
  ({ kind: 'set', path: [...step(text, id), ...keys], value }) as const
const clear =
  (id: string, ...keys: Path) =>
  (text: string) =>
    ({ kind: 'clear', path: [...step(text, id), ...keys] }) as const
/** The English words only, so that every translation is still there. */
const say =
  (id: string, words: string, key = 'say') =>
  (text: string) => {
    const path = [...step(text, id), key]
    const tongues = languagesIn(parse(text))
    const before = valueAt(parse(text), path) ?? Object.fromEntries(tongues.map((tongue) => [tongue, 'x']))
    return { kind: 'set', path, value: withWords(before, 'en', 'en', words) } as const
  }
/** Too short for four bowls to be there together. */
const SHORT = { for: 'settle', 'at least': '10 s', 'at most': '10 s', source: { en: 'Label', es: 'Etiqueta' } }

const WRONG: readonly (readonly [rule: string, of: string, spoil: Spoil])[] = [
  ['not-yaml', SLICER, (text) => text.replace('procedure:', 'procedure: "')],
  ['wrong-shape', SLICER, (text) => text.replace('hands:', 'hand:')],
  ['name-used-twice', SLICER, change(set('unplug', ['step'], 'prove-off'))],
  ['step-cannot-be-done', SLICER, change(set('blade-sanitize', ['wait', 'at most'], '10 s'))],
  ['impossible-order', DRINKS, change(clear('connector-wash', 'free'))],
  ['chemicals-without-rinse', DRINKS, change(clear('rinse-ph', 'rinse'), acid('line-cleaner'))],
  ['part-not-put-back', DRINKS, change(withoutPart('count-on'))],
  ['missing-translation', SLICER, change(() => ({ kind: 'insert', list: ['languages'], at: 0, value: 'fr' }))],
  ['against-the-rules', DRINKS, change(set('sanitizer-strength', ['read', 'at least'], 900), clearMost())],
  ['hands-in-under-power', SLICER, change(clear('prove-off', 'confirm'), clear('blade-scrape', 'confirm'))],
  ['moving-part-by-everyday-word', BOWLS, change(clear('spirals-start', 'confirm'))],
  ['chemical-without-caution', SLICER, change(noCautions())],
  ['hot-water-without-caution', SLICER, change(noCautions(), say('carriage-rinse', 'Wipe it with hot water.'))],
  ['blade-without-caution', SLICER, change(noCautions())],
  ['cleaned-after-sanitizing', SLICER, change(set('carriage-dry', ['use'], ['detergent']))],
  ['rinsed-after-sanitizing', SLICER, change(say('carriage-dry', 'Rinse the base with water.'))],
  ['dry-part-greased', SLICER, change(dryPartGreased())],
  ['no-longest-time', BOWLS, change(clear('rinse-pour', 'wait', 'at most'))],
  ['limit-cannot-be-kept', BOWLS, change(set('count-on', ['wait'], SHORT))],
  ['wait-below-rules', DRINKS, change(set('bench-dip', ['wait', 'at least'], '5 s'))],
  ['too-long-to-hear', SLICER, change(say('card-read', `Read ${'the card and '.repeat(7)}the clock.`))],
  ['too-many-facts', SLICER, change(say('carriage-dry', 'Air dries it. Cloth does not. Wait. Look at it.', 'why'))],
  ['two-actions', SLICER, change(say('tray-off', 'Loosen the screw and lift the tray off.'))],
  ['condition-after-command', SLICER, change(say('carriage-dry', 'Look for pools when the base is dry.'))],
  ['command-word', SLICER, change(say('carriage-dry', 'Look over the left side.'))]
]

function acid(id: string) {
  return (text: string): Edit => {
    const at = listAt(parse(text), ['solutions']).findIndex((one) => wordsAt(one, ['id']) === id)
    return { kind: 'set', path: ['solutions', at, 'chemical'], value: 'acid' }
  }
}

function withoutPart(id: string) {
  return (text: string): Edit => ({ kind: 'remove', list: [...step(text, id), 'count', 'parts'], at: 0 })
}

function clearMost() {
  return (text: string): Edit => set('sanitizer-strength', ['read', 'at most'], 1000)(text)
}

function noCautions() {
  return (text: string): Edit => {
    const bare: unknown = JSON.parse(
      JSON.stringify(valueAt(parse(text), ['stages']), (key, value: unknown) =>
        key === 'cautions' ? undefined : value
      )
    )
    return { kind: 'set', path: ['stages'], value: bare }
  }
}

function dryPartGreased() {
  return (text: string): Edit => {
    const dry = listAt(parse(text), ['parts']).find((part) => wordsAt(part, ['care']) === 'dry')
    const name = valueAt(dry, ['name'])
    const english = typeof name === 'string' ? name : wordsAt(name, ['en'])
    return say('parts-lay-out', `Grease the ${english.toLowerCase()}.`)(text)
  }
}

function rulesFor(text: string): readonly string[] {
  return [...new Set(checkDraft(text, shop).findings.map(({ rule }) => rule))]
}

test.each(WRONG)('%s', (rule, of, spoil) => {
  expect(rulesFor(of)).toEqual([])
  const { findings } = checkDraft(spoil(of), shop)
  const found = findings.filter((finding) => finding.rule === rule)
  expect(findings.map((finding) => finding.rule)).toContain(rule)
  expect(found[0]?.line).toBeGreaterThan(0)
  expect(Math.min(...found.flatMap(({ reason, source }) => [reason.length, source.length]))).toBeGreaterThan(8)
})

test.each(SHIPPED_FILES)('$name has nothing to be found, also under the rules of a shop', ({ text }) => {
  expect(rulesFor(text)).toEqual([])
})

test('a finding keeps its key when other steps come before it', () => {
  const spoiled = change(say('tray-off', 'Loosen the screw and lift the tray off.'))(SLICER)
  const keys = checkDraft(spoiled, shop).findings.map(({ key }) => key)
  const more = change((text) => {
    const path = step(text, 'tray-off')
    const value = { ...(valueAt(parse(text), path) as object), step: 'again' }
    return { kind: 'insert', list: path.slice(0, -1), at: 0, value }
  })(spoiled)
  expect(checkDraft(more, shop).findings.map(({ key }) => key)).toEqual(expect.arrayContaining([...keys]))
  expect(idsAt({ a: ['b', 1] }, ['a'])).toEqual(['b'])
})
