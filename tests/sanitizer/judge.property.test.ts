/** Judging in general, on random readings and labels by every shipped rule set. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Reading } from '../../src/core/sanitizer/reading.ts'
import { contactNeeded } from '../../src/core/sanitizer/contact-needed.ts'
import { inUnit } from '../../src/core/sanitizer/temperature.ts'
import { aLabel, judgedBy, rulesNamed, type LabelFigures } from './judging.ts'
import { RULE_SETS } from './shipped-rule-sets.ts'

const RUNS = { numRuns: 3000 }
const ids = RULE_SETS.filter(({ kind }) => kind === 'jurisdiction').map(({ id }) => id)
const number = (min: number, max: number) => fc.integer({ min: min * 10, max: max * 10 }).map((tenths) => tenths / 10)

const agent = fc.constantFrom('chlorine', 'iodine', 'quat')
/** Most are near enough to the limits to be good now and then. */
const whole = fc.record({
  subject: agent,
  ppm: fc.oneof(number(0, 30), number(40, 220), number(200, 420)),
  temperature: fc.record({ value: number(10, 60), unit: fc.constant('C' as const) }),
  ph: number(3, 11),
  hardness: number(0, 700),
  seconds: number(5, 130)
})
const partial = fc
  .tuple(whole, fc.subarray(['ppm', 'temperature', 'ph', 'hardness', 'seconds'] as const))
  .map(([reading, left]): Reading => ({ ...reading, ...Object.fromEntries(left.map((key) => [key, undefined])) }))
const figures: fc.Arbitrary<LabelFigures> = fc.record(
  { ppm: number(5, 250), seconds: number(1, 120) },
  { requiredKeys: [] }
)
const rules = fc.constantFrom(...ids)

const tally = () => ({ good: 0, out: 0, unknown: 0 })

describe('any reading', () => {
  it('that is whole and of chlorine gets the verdict the standard spells out', () => {
    const seen = tally()
    // 4-501.114(A), 4-703.11(C) and 180.940(a) as sentences rather than rows.
    const expected = ({
      ppm,
      temperature: { value: c },
      ph,
      seconds
    }: typeof whole extends fc.Arbitrary<infer R> ? R : never) => {
      const least = ppm < 50 ? 49 : ppm < 100 ? (ph <= 8 ? 24 : 38) : 13
      const isShort = ppm >= 50 && ((ph <= 10 && c >= 38) || (ph <= 8 && c >= 24))
      const isGood = ppm >= 25 && ppm <= 200 && ph <= 10 && c >= least && seconds >= (isShort ? 7 : 10)
      return isGood ? 'good' : 'out'
    }
    fc.assert(
      fc.property(whole, (drawn) => {
        const reading = { ...drawn, subject: 'chlorine' as const }
        const { verdict } = judgedBy('us-food-code', reading)
        seen[verdict] += 1
        expect(verdict).toBe(expected(reading))
      }),
      RUNS
    )
    expect(seen.good).toBeGreaterThan(200)
    expect(seen.out).toBeGreaterThan(200)
  })

  it('is out exactly when no value of what is missing could save it', () => {
    const seen = tally()
    fc.assert(
      fc.property(
        rules,
        partial,
        fc.array(whole, { minLength: 5, maxLength: 5 }),
        figures,
        (id, reading, fills, label) => {
          const asked = aLabel(reading.subject, { ppm: 100, ...label })
          const { verdict } = judgedBy(id, reading, asked)
          seen[verdict] += 1
          const filled = fills.map((fill) => {
            const given = Object.entries(reading).filter(([, value]) => value !== undefined)
            return judgedBy(id, { ...fill, ...Object.fromEntries(given) }, asked).verdict
          })
          if (verdict === 'out') expect(new Set(filled)).toEqual(new Set(['out']))
          // What is good without a value stays good with it; hardness alone is assumed.
          if (verdict === 'good' && reading.hardness !== undefined) expect(new Set(filled)).toEqual(new Set(['good']))
        }
      ),
      RUNS
    )
    for (const verdict of ['good', 'out', 'unknown'] as const) expect(seen[verdict]).toBeGreaterThan(50)
  })

  it('stays good when it gets warmer, stays on longer, gets less alkaline or stronger below the cap', () => {
    const up = number(0, 50)
    fc.assert(
      fc.property(rules, whole, up, (id, reading, more) => {
        const label = aLabel(reading.subject, { ppm: 100 })
        if (judgedBy(id, reading, label).verdict !== 'good') return
        const cap = { chlorine: 200, iodine: 25, quat: 400 }[reading.subject]
        const changes: Partial<Reading>[] = [
          { temperature: { value: reading.temperature.value + more, unit: 'C' } },
          { seconds: reading.seconds + more },
          { ph: Math.max(0, reading.ph - more) },
          { hardness: Math.max(0, reading.hardness - more) },
          { ppm: Math.min(cap, reading.ppm + more) }
        ]
        expect(changes.map((change) => judgedBy(id, { ...reading, ...change }, label).verdict)).toEqual(
          changes.map(() => 'good')
        )
      }),
      { numRuns: 6000 }
    )
    expect.hasAssertions()
  })

  it('gets no better verdict by a label, save where the rule leaves it to the label', () => {
    fc.assert(
      fc.property(rules, partial, figures, (id, reading, label) => {
        const without = judgedBy(id, reading).verdict
        const withLabel = judgedBy(id, reading, aLabel(reading.subject, label)).verdict
        if (without === 'out') expect(withLabel).toBe('out')
        if (withLabel === 'good' && without !== 'good') {
          expect(reading.subject === 'quat' || id === 'australia-new-zealand').toBe(true)
        }
      }),
      RUNS
    )
    expect.hasAssertions()
  })

  it('that is good stays on for the time that is needed, and is out just below it', () => {
    fc.assert(
      fc.property(rules, whole, figures, (id, reading, label) => {
        const asked = aLabel(reading.subject, { ppm: 100, ...label })
        const needed = contactNeeded(reading, rulesNamed(id), asked)
        if (needed === null || judgedBy(id, { ...reading, seconds: 'later' }, asked).verdict !== 'good') return
        expect(judgedBy(id, { ...reading, seconds: needed.seconds }, asked).verdict).toBe('good')
        expect(judgedBy(id, { ...reading, seconds: needed.seconds - 0.01 }, asked).verdict).toBe('out')
      }),
      { numRuns: 6000 }
    )
    expect.hasAssertions()
  })

  it('is the same in either scale where the rule has only one', () => {
    fc.assert(
      fc.property(number(60, 90), (value) => {
        const reading = { subject: 'hot-water', seconds: 30 } as const
        const c = judgedBy('california', { ...reading, temperature: { value, unit: 'C' } }).verdict
        const f = judgedBy('california', {
          ...reading,
          temperature: { value: inUnit({ value, unit: 'C' }, 'F'), unit: 'F' }
        }).verdict
        expect(f).toBe(c)
      })
    )
    expect.hasAssertions()
  })
})
