/**
 * FDA Food Code 4-501.114(A), the table of strength, pH and temperature, as adopted in Wisconsin and in
 * WAC 246-215-04565; 4-703.11(C) for contact times, as adopted in Maine, Oklahoma and Wisconsin; 40 CFR 180.940(a) for
 * the cap, from memory. The table is written here a second time, from the standard, as it is printed.
 */
import { describe, expect, it } from 'vitest'
import { celsius, fahrenheit, judgedBy, missingIn, outOf } from './judging.ts'

const CODE = 'us-food-code'
const LONG = 60

/** From strength (mg/L) up to the next row; the least temperature at pH 10 or less, and at pH 8 or less. */
const TABLE = [
  { from: 25, to: 49, ph10: { C: 49, F: 120 }, ph8: { C: 49, F: 120 } },
  { from: 50, to: 99, ph10: { C: 38, F: 100 }, ph8: { C: 24, F: 75 } },
  { from: 100, to: 200, ph10: { C: 13, F: 55 }, ph8: { C: 13, F: 55 } }
] as const

const verdict = (ppm: number, temperature: ReturnType<typeof celsius | typeof fahrenheit>, ph: number) =>
  judgedBy(CODE, { subject: 'chlorine', ppm, temperature, ph, seconds: LONG }).verdict

describe.each(TABLE)('row of $from mg/L', ({ from, to, ph10, ph8 }) => {
  const columns = [
    { ph: 10, least: ph10 },
    { ph: 8.01, least: ph10 },
    { ph: 8, least: ph8 },
    { ph: 5, least: ph8 }
  ]

  it.each(columns.flatMap((column) => [from, to].map((ppm) => ({ ppm, ...column }))))(
    '$ppm mg/L at pH $ph: warm enough from $least.C C and from $least.F F on',
    ({ ppm, ph, least }) => {
      expect([-0.1, 0, 0.1].map((step) => verdict(ppm, celsius(least.C + step), ph))).toEqual(['out', 'good', 'good'])
      expect([-0.1, 0, 0.1].map((step) => verdict(ppm, fahrenheit(least.F + step), ph))).toEqual([
        'out',
        'good',
        'good'
      ])
    }
  )

  it('holds the lower row just below its strength, and until the next begins', () => {
    const below = TABLE[TABLE.findIndex((row) => row.from === from) - 1]
    const justBelow = verdict(from - 0.1, celsius(ph8.C), 8)
    expect(justBelow).toBe(below !== undefined && below.ph8.C <= ph8.C ? 'good' : 'out')
    if (to !== 200) expect(verdict(to + 0.9, celsius(ph8.C - 0.1), 8)).toBe('out')
  })

  it.each([10.01, 11, 14])('is out at pH %s, however warm', (ph) => {
    expect(verdict(from, celsius(60), ph)).toBe('out')
    expect(verdict(to, celsius(60), ph)).toBe('out')
  })
})

describe('strength', () => {
  it.each([
    [0, 'out'],
    [24.9, 'out'],
    [25, 'good'],
    [200, 'good'],
    [200.1, 'out'],
    [1000, 'out']
  ])('%s mg/L, warm and at pH 7, is %s', (ppm, expected) => {
    expect(verdict(ppm, celsius(50), 7)).toBe(expected)
  })

  it('says by how much, and to add product', () => {
    const judged = judgedBy(CODE, { subject: 'chlorine', ppm: 20, temperature: celsius(50), ph: 7, seconds: LONG })
    expect(judged).toMatchObject({
      verdict: 'out',
      out: [{ quantity: 'ppm', side: 'below', bound: 25, value: 20, by: 5, action: 'add-product' }]
    })
  })

  it('over the cap names the cap, not the table', () => {
    const judged = judgedBy(CODE, { subject: 'chlorine', ppm: 250, temperature: celsius(24), ph: 7, seconds: LONG })
    expect(judged).toMatchObject({ out: [{ bound: 200, by: 50, action: 'remix-weaker' }] })
    expect(judged.decided?.limit).toMatchObject({ aspect: 'cap', status: 'memory' })
    expect(judged.decided?.limit.source).toContain('180.940')
  })

  it('that is cool offers a stronger solution beside a warmer one', () => {
    const judged = judgedBy(CODE, { subject: 'chlorine', ppm: 60, temperature: celsius(20), ph: 7, seconds: LONG })
    expect(judged).toMatchObject({ out: [{ bound: 24, by: 4, action: 'warm-or-add-product' }] })
    const strong = judgedBy(CODE, { subject: 'chlorine', ppm: 100, temperature: celsius(10), ph: 7, seconds: LONG })
    expect(strong).toMatchObject({ out: [{ bound: 13, by: 3, action: 'warm' }] })
  })
})

describe('contact time', () => {
  const after = (ppm: number, c: number, ph: number, seconds: number) =>
    judgedBy(CODE, { subject: 'chlorine', ppm, temperature: celsius(c), ph, seconds })

  it.each([
    // 10 s in general.
    [25, 49, 8, 10, 'good'],
    [25, 49, 8, 9.9, 'out'],
    [49, 60, 8, 9.9, 'out'],
    [100, 13, 8, 10, 'good'],
    [100, 13, 8, 9.9, 'out'],
    // 7 s at 50 mg/L: pH 10 or less from 38 C on, pH 8 or less from 24 C on.
    [50, 38, 10, 7, 'good'],
    [50, 38, 10, 6.9, 'out'],
    [50, 24, 8, 7, 'good'],
    [50, 24, 8, 6.9, 'out'],
    // As strong, and too cool or too alkaline for 7 s.
    [100, 37.9, 10, 7, 'out'],
    [100, 37.9, 10, 10, 'good'],
    [100, 23.9, 8, 7, 'out'],
    [100, 24, 8, 7, 'good'],
    [100, 24, 8.1, 7, 'out']
  ])('%s mg/L at %s C and pH %s for %s s is %s', (ppm, c, ph, seconds, expected) => {
    expect(after(ppm, c, ph, seconds).verdict).toBe(expected)
  })

  it('too short says by how much and to go on', () => {
    expect(after(100, 13, 8, 6)).toMatchObject({
      out: [{ quantity: 'seconds', bound: 10, by: 4, action: 'hold-longer' }]
    })
  })
})

describe('what is missing', () => {
  const whole = { subject: 'chlorine', ppm: 100, temperature: celsius(24), ph: 7, seconds: LONG } as const

  it.each(['ppm', 'temperature', 'ph', 'seconds'] as const)('%s cannot be guessed', (quantity) => {
    expect(missingIn(judgedBy(CODE, { ...whole, [quantity]: undefined }))).toEqual([`reading ${quantity}`])
  })

  it('does not hide what is out whatever it would be', () => {
    expect(outOf(judgedBy(CODE, { subject: 'chlorine', ppm: 20 }))).toEqual(['ppm below 25'])
    expect(outOf(judgedBy(CODE, { subject: 'chlorine', ppm: 201 }))).toEqual(['ppm above 200'])
    expect(outOf(judgedBy(CODE, { subject: 'chlorine', ph: 10.5 }))).toEqual(['ph above 10'])
    expect(outOf(judgedBy(CODE, { subject: 'chlorine', temperature: celsius(12) }))).toEqual(['temperature below 13'])
    expect(outOf(judgedBy(CODE, { subject: 'chlorine', seconds: 6 }))).toEqual(['seconds below 7'])
  })

  it('with nothing measured names all of it once', () => {
    expect(missingIn(judgedBy(CODE, { subject: 'chlorine' })).toSorted()).toEqual(
      ['reading ph', 'reading ppm', 'reading seconds', 'reading temperature'].toSorted()
    )
  })

  it('is no contact time while a wait will still see to it', () => {
    expect(judgedBy(CODE, { ...whole, seconds: 'later' }).verdict).toBe('good')
  })
})
