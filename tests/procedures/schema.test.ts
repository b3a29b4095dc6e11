/** The committed JSON Schema against the program's own shape check, with Ajv as the reference validator of draft 2020-12. */
import { readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020.js'
import fc from 'fast-check'
import * as v from 'valibot'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { authorFormat } from '../../src/core/procedure/author-format.ts'
import { procedureSchemaText } from './procedure-schema.ts'
import { SHIPPED_FILES } from './shipped-files.ts'

const committed = readFileSync(new URL('../../procedures/procedure.schema.json', import.meta.url), 'utf8')
const accepts = new Ajv2020({ allErrors: false }).compile(JSON.parse(committed) as object)
const ourAccepts = (document: unknown) => v.safeParse(authorFormat, document).success

/** Small procedures, one for each shipped stage: quick to check, and every kind of key is in some of them. */
const documents = SHIPPED_FILES.flatMap(({ text }) => {
  const whole = parse(text) as Record<string, unknown> & { stages: { steps: unknown[] }[] }
  const short = Object.fromEntries(
    Object.entries(whole).map(([key, value]) => [key, Array.isArray(value) ? value.slice(0, 2) : value])
  )
  return whole.stages.map((stage) => ({ ...short, stages: [{ ...stage, steps: stage.steps.slice(0, 8) }] }))
})

type Holder = { holder: Record<string, unknown> | unknown[]; key: string | number }

function placesIn(value: unknown): Holder[] {
  if (Array.isArray(value)) return value.flatMap((item, key) => [{ holder: value, key }, ...placesIn(item)])
  if (value === null || typeof value !== 'object') return []
  const holder = value as Record<string, unknown>
  return Object.keys(holder).flatMap((key) => [{ holder, key }, ...placesIn(holder[key])])
}

const MUTATIONS = {
  remove: ({ holder, key }: Holder) => (Array.isArray(holder) ? holder.splice(Number(key), 1) : delete holder[key]),
  'another type': ({ holder, key }: Holder, seed: number) =>
    set(holder, key, [7, true, null, [], {}, 'words', 0.5, ['a'], { en: 'words' }][seed % 9]),
  'unknown key': ({ holder, key }: Holder) => set(holder, Array.isArray(holder) ? key : `${key}-x`, 'words'),
  'bad id': ({ holder, key }: Holder, seed: number) =>
    set(holder, key, ['Rinse', '1a', '', 'a b', 'a'.repeat(65), 'a'.repeat(64), '-a'][seed % 7]),
  'bad duration': ({ holder, key }: Holder, seed: number) =>
    set(holder, key, ['5', '5m', 'min 5', '5 min', '1.5 h', '5 min 3 h', '20 s', '90sec'][seed % 8]),
  'empty list': ({ holder, key }: Holder) => set(holder, key, []),
  'long list': ({ holder, key }: Holder) =>
    set(
      holder,
      key,
      Array.from({ length: 101 }, () => 'a')
    ),
  'length of words': ({ holder, key }: Holder, seed: number) =>
    set(
      holder,
      key,
      ['', '  ', 'x'.repeat(600), 'x'.repeat(601), ` ${'x'.repeat(600)}\n`, `${'x'.repeat(599)} y`, '\n x \n'][seed % 7]
    ),
  languages: ({ holder, key }: Holder, seed: number) =>
    set(holder, key, [{ en: 'a', es: 'b' }, { EN: 'a' }, { en: '' }, { 'es-MX': 'a' }, { english: 'a' }][seed % 5]),
  number: ({ holder, key }: Holder, seed: number) =>
    set(holder, key, [0, -1, 1, 50, 51, 100, 101, 200, 201, 2.5][seed % 10])
} as const

function set(holder: Holder['holder'], key: string | number, value: unknown): void {
  ;(holder as Record<string | number, unknown>)[key] = structuredClone(value)
}

const kinds = Object.keys(MUTATIONS) as (keyof typeof MUTATIONS)[]

describe('procedure.schema.json', () => {
  it('is what the author format gives; run make-schema.ts after changing it', () => {
    expect(JSON.parse(committed)).toEqual(JSON.parse(procedureSchemaText()))
  })

  it.each(SHIPPED_FILES)('accepts $name, which names it for editors', ({ text }) => {
    expect(text.split('\n')[0]).toBe('# yaml-language-server: $schema=./procedure.schema.json')
    const document: unknown = parse(text)
    accepts(document)
    expect(accepts.errors ?? null).toBeNull()
    expect(ourAccepts(document)).toBe(true)
  })

  it('gives the same verdict as the program on thousands of spoilt procedures', () => {
    const verdicts = { accepted: 0, refused: 0 }
    fc.assert(
      fc.property(
        fc.constantFrom(...documents),
        fc.array(fc.tuple(fc.constantFrom(...kinds), fc.nat(), fc.nat()), { minLength: 1, maxLength: 2 }),
        (original, changes) => {
          const document = structuredClone(original)
          for (const [kind, place, seed] of changes) {
            const places = placesIn(document)
            const chosen = places[place % places.length]
            if (chosen) MUTATIONS[kind](chosen, seed)
          }
          const ours = ourAccepts(document)
          verdicts[ours ? 'accepted' : 'refused'] += 1
          expect(accepts(document)).toBe(ours)
        }
      ),
      { numRuns: 4000 }
    )
    // A test that only ever saw one verdict would prove nothing.
    expect(verdicts.accepted).toBeGreaterThan(200)
    expect(verdicts.refused).toBeGreaterThan(1000)
  })
})
