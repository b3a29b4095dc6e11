/** The committed JSON Schema of rule sets against the program's own shape check, with Ajv as the reference validator. */
import { readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020.js'
import fc from 'fast-check'
import * as v from 'valibot'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { ruleSetFormat } from '../../src/core/sanitizer/rule-set-format.ts'
import { ruleSetSchemaText } from './rule-set-schema.ts'
import { RULE_SET_FILES } from './shipped-rule-sets.ts'

const committed = readFileSync(new URL('../../procedures/rules/rule-set.schema.json', import.meta.url), 'utf8')
const accepts = new Ajv2020({ allErrors: false }).compile(JSON.parse(committed) as object)
const ourAccepts = (document: unknown) => v.safeParse(ruleSetFormat, document).success
const documents = RULE_SET_FILES.map(({ text }) => parse(text) as unknown)

type Holder = { readonly holder: Record<string, unknown> | unknown[]; readonly key: string | number }

function placesIn(value: unknown): Holder[] {
  if (value === null || typeof value !== 'object') return []
  const holder = value as Record<string, unknown>
  const keys = Array.isArray(value) ? value.map((_, index) => index) : Object.keys(holder)
  return keys.flatMap((key) => [{ holder, key }, ...placesIn(holder[key])])
}

/** Values that are right somewhere, nearly right, or of another kind. */
const SPOILT: readonly unknown[] = [
  ...['at least 50 ppm', 'at least 50 mg/L', 'at most 8', '12.5 to 25 ppm', 'at least 30 s', 'at least 2 min', 'clear'],
  ...[
    'at least 24 C / 75 F',
    'at least 171 F',
    '43 to 49 C / 110 to 120 F',
    '43 to 49 C / 110 F',
    'at least 75 F / 24 C'
  ],
  ...['50 ppm', 'at least 8,25 ppm', 'at least -5 ppm', 'at least 50 ppm ', 'at least  50 ppm', 'up to 5 C', '14 days'],
  ...[
    '1 hour',
    '0 days',
    'chlorine',
    'solution',
    'read',
    'sure',
    'Our County',
    'our-county',
    '',
    '  ',
    'x'.repeat(601)
  ],
  ...[7, 0, -1, 0.7, 2.1, 101, true, null, [], {}, ['strength'], ['strength', 'strength'], ['time']]
]

describe('rule-set.schema.json', () => {
  it('is what the format gives; run npm run schema after changing it', () => {
    expect(JSON.parse(committed)).toEqual(JSON.parse(ruleSetSchemaText()))
  })

  it.each(RULE_SET_FILES)('accepts $name, which names it for editors', ({ text }) => {
    expect(text.split('\n')[0]).toBe('# yaml-language-server: $schema=./rule-set.schema.json')
    const document: unknown = parse(text)
    accepts(document)
    expect(accepts.errors ?? null).toBeNull()
    expect(ourAccepts(document)).toBe(true)
  })

  it('gives the same verdict as the program on thousands of spoilt rule sets', () => {
    const verdicts = { accepted: 0, refused: 0 }
    fc.assert(
      fc.property(
        fc.constantFrom(...documents),
        fc.nat(),
        fc.option(fc.constantFrom(...SPOILT), { nil: undefined }),
        fc.boolean(),
        (original, place, value, isNewKey) => {
          const document = structuredClone(original)
          const places = placesIn(document)
          const chosen = places[place % places.length]
          if (!chosen) return
          const { holder, key } = chosen
          if (value === undefined && Array.isArray(holder)) holder.splice(Number(key), 1)
          else if (value === undefined) delete (holder as Record<string, unknown>)[key]
          else (holder as Record<string | number, unknown>)[isNewKey ? `${key}x` : key] = structuredClone(value)
          const ours = ourAccepts(JSON.parse(JSON.stringify(document)))
          verdicts[ours ? 'accepted' : 'refused'] += 1
          expect(accepts(JSON.parse(JSON.stringify(document)))).toBe(ours)
        }
      ),
      { numRuns: 6000 }
    )
    expect(verdicts.accepted).toBeGreaterThan(200)
    expect(verdicts.refused).toBeGreaterThan(1000)
  })
})
