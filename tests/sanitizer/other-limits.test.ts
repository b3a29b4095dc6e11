/** Iodine, quaternary ammonium, water and food by the model code, and what a label adds. */
import { describe, expect, it } from 'vitest'
import type { Reading } from '../../src/core/sanitizer/reading.ts'
import { aLabel, celsius, fahrenheit, judgedBy, missingIn, outOf } from './judging.ts'

const CODE = 'us-food-code'

describe('iodine', () => {
  // FDA Food Code 4-501.114(B) and 4-703.11(C)(3), as adopted: 12.5 to 25 mg/L, 20 C (68 F), pH 5.0 or less, 30 s.
  const good: Reading = { subject: 'iodine', ppm: 20, temperature: celsius(24), ph: 4.5, seconds: 30 }

  it.each([
    [{ ppm: 12.5 }, []],
    [{ ppm: 12.4 }, ['ppm below 12.5']],
    [{ ppm: 25 }, []],
    [{ ppm: 25.1 }, ['ppm above 25']],
    [{ temperature: celsius(20) }, []],
    [{ temperature: celsius(19.9) }, ['temperature below 20']],
    [{ temperature: fahrenheit(68) }, []],
    [{ temperature: fahrenheit(67.9) }, ['temperature below 68']],
    [{ ph: 5 }, []],
    [{ ph: 5.1 }, ['ph above 5']],
    [{ seconds: 30 }, []],
    [{ seconds: 29.9 }, ['seconds below 30']]
  ] as const)('%o', (change, expected) => {
    const judged = judgedBy(CODE, { ...good, ...change })
    expect(outOf(judged)).toEqual(expected)
    expect(judged.verdict).toBe(expected.length === 0 ? 'good' : 'out')
  })

  it('may have the pH its label names instead', () => {
    const label = aLabel('iodine', { maxPh: 7 })
    expect(judgedBy(CODE, { ...good, ph: 7 }, label).verdict).toBe('good')
    expect(outOf(judgedBy(CODE, { ...good, ph: 7.1 }, label))).toEqual(['ph above 7'])
    expect(outOf(judgedBy(CODE, { ...good, ph: 5 }, aLabel('iodine', { maxPh: 4 })))).toEqual(['ph above 4'])
  })

  it.each(['ppm', 'temperature', 'ph', 'seconds'] as const)('without its %s cannot be judged', (quantity) => {
    expect(missingIn(judgedBy(CODE, { ...good, [quantity]: undefined }))).toEqual([`reading ${quantity}`])
  })
})

describe('quaternary ammonium', () => {
  // FDA Food Code 4-501.114(C) and 4-703.11(C)(3), as adopted: label strength, 24 C (75 F), 500 mg/L hardness, 30 s.
  const label = aLabel('quat', { ppm: 200 })
  const good: Reading = { subject: 'quat', ppm: 200, temperature: celsius(24), hardness: 500, seconds: 30 }

  it.each([
    [{}, []],
    [{ ppm: 199.9 }, ['ppm below 200']],
    // 400 ppm: 73 FR 49101 and 75 FR 40729, the highest of all.
    [{ ppm: 400 }, []],
    [{ ppm: 400.1 }, ['ppm above 400']],
    [{ temperature: celsius(23.9) }, ['temperature below 24']],
    [{ temperature: fahrenheit(75) }, []],
    [{ temperature: fahrenheit(74.9) }, ['temperature below 75']],
    [{ hardness: 500.1 }, ['hardness above 500']],
    [{ seconds: 29.9 }, ['seconds below 30']]
  ] as const)('%o', (change, expected) => {
    expect(outOf(judgedBy(CODE, { ...good, ...change }, label))).toEqual(expected)
  })

  it('has no strength without a label', () => {
    expect(missingIn(judgedBy(CODE, good))).toEqual(['label ppm'])
    expect(missingIn(judgedBy(CODE, good, aLabel('quat', { seconds: 30 })))).toEqual(['label ppm'])
  })

  it('is not saved by a label that only names a most', () => {
    expect(missingIn(judgedBy(CODE, { ...good, ppm: 0 }, aLabel('quat', { maxPpm: 240 })))).toEqual(['label ppm'])
  })

  it('takes a hardness that nobody measured for met, and says so', () => {
    const judged = judgedBy(CODE, { ...good, hardness: undefined }, label)
    expect(judged).toMatchObject({ verdict: 'good', assumed: [{ demand: { quantity: 'hardness', max: 500 } }] })
    expect(judgedBy(CODE, good, label)).toMatchObject({ verdict: 'good', assumed: [] })
  })

  it('may have the hardness its label names instead', () => {
    const soft = aLabel('quat', { ppm: 200, maxHardness: 650 })
    expect(judgedBy(CODE, { ...good, hardness: 650 }, soft).verdict).toBe('good')
    expect(outOf(judgedBy(CODE, { ...good, hardness: 651 }, soft))).toEqual(['hardness above 650'])
  })

  it('keeps to the lower cap of its label', () => {
    const judged = judgedBy(CODE, { ...good, ppm: 300 }, aLabel('quat', { ppm: 200, maxPpm: 240 }))
    expect(outOf(judged)).toEqual(['ppm above 240'])
  })
})

describe('water and food', () => {
  it.each([
    // 4-703.11(A) with 4-501.111, as adopted in Maine and Washington.
    ['hot-water', celsius(77), 30, []],
    ['hot-water', celsius(76.9), 30, ['temperature below 77']],
    ['hot-water', fahrenheit(171), 30, []],
    ['hot-water', fahrenheit(170.9), 30, ['temperature below 171']],
    ['hot-water', celsius(77), 29.9, ['seconds below 30']],
    // 4-703.11(B), as adopted in Maine and Oklahoma: at the surface of the utensil, no time.
    ['hot-water-machine', celsius(71), undefined, []],
    ['hot-water-machine', celsius(70.9), undefined, ['temperature below 71']],
    ['hot-water-machine', fahrenheit(160), undefined, []],
    ['hot-water-machine', fahrenheit(159.9), undefined, ['temperature below 160']],
    // 3-501.16(A)(2), as adopted in Georgia.
    ['cold-holding', celsius(5), undefined, []],
    ['cold-holding', celsius(5.1), undefined, ['temperature above 5']],
    ['cold-holding', fahrenheit(41), undefined, []],
    ['cold-holding', fahrenheit(41.1), undefined, ['temperature above 41']],
    ['cold-holding', celsius(-18), undefined, []],
    // 5-202.12(A), edition of 2022, from a secondary page.
    ['handwash-water', celsius(29.4), undefined, []],
    ['handwash-water', celsius(29.3), undefined, ['temperature below 29.4']],
    ['handwash-water', fahrenheit(85), undefined, []],
    ['handwash-water', fahrenheit(84.9), undefined, ['temperature below 85']],
    // 4-501.19, seen as Navy P-5010-1 4-2.13.
    ['wash-water', celsius(43), undefined, []],
    ['wash-water', fahrenheit(109.9), undefined, ['temperature below 110']]
  ] as const)('%s at %o for %s s', (subject, temperature, seconds, expected) => {
    const judged = judgedBy(CODE, { subject, temperature, seconds })
    expect(outOf(judged)).toEqual(expected)
    expect(judged.verdict).toBe(expected.length === 0 ? 'good' : 'out')
  })

  it('cannot be judged without a temperature, or hot water without its time', () => {
    expect(missingIn(judgedBy(CODE, { subject: 'cold-holding' }))).toEqual(['reading temperature'])
    expect(missingIn(judgedBy(CODE, { subject: 'hot-water', temperature: celsius(80) }))).toEqual(['reading seconds'])
  })

  it.each([
    // Editions before 2022, from a secondary page: 38 C (100 F).
    [celsius(38), 'good'],
    [celsius(37.9), 'out'],
    [fahrenheit(100), 'good'],
    [fahrenheit(99.9), 'out']
  ])('handwash water of %o by the editions before 2022 is %s', (temperature, expected) => {
    expect(judgedBy('us-food-code-before-2022', { subject: 'handwash-water', temperature }).verdict).toBe(expected)
  })

  it('warm food is thrown out when in doubt; hot wash water is let cool', () => {
    expect(judgedBy(CODE, { subject: 'cold-holding', temperature: celsius(9) })).toMatchObject({
      out: [{ action: 'discard-if-long', by: 4 }]
    })
    expect(judgedBy('pennsylvania-dispensers', { subject: 'wash-water', temperature: fahrenheit(125) })).toMatchObject({
      out: [{ action: 'cool', by: 5 }]
    })
  })

  it('a rinse is good when it is clear, and only then', () => {
    // Common practice, no source.
    expect(judgedBy(CODE, { subject: 'rinse', clear: true }).verdict).toBe('good')
    expect(judgedBy(CODE, { subject: 'rinse', clear: false })).toMatchObject({ out: [{ action: 'rinse-again' }] })
    expect(missingIn(judgedBy(CODE, { subject: 'rinse' }))).toEqual(['reading clear'])
  })
})

describe('a label beside the code', () => {
  const reading: Reading = { subject: 'chlorine', ppm: 120, temperature: celsius(24), ph: 7, seconds: 60 }

  it('decides where it asks for more', () => {
    const judged = judgedBy(CODE, reading, aLabel('chlorine', { ppm: 150, seconds: 120 }))
    expect(outOf(judged)).toEqual(['seconds below 120', 'ppm below 150'])
    expect(judged.decided?.ruleSet.kind).toBe('label')
  })

  it('takes nothing off where it asks for less', () => {
    const weak = { ...reading, ppm: 20, temperature: celsius(50), seconds: 5 }
    const judged = judgedBy(CODE, weak, aLabel('chlorine', { ppm: 10, seconds: 1 }))
    expect(outOf(judged).toSorted()).toEqual(['ppm below 25', 'seconds below 10'])
    expect(judged.decided?.ruleSet.id).toBe(CODE)
  })

  it('says which one is nearest when all is good', () => {
    expect(judgedBy(CODE, reading, aLabel('chlorine', { ppm: 120 })).decided?.ruleSet.kind).toBe('label')
    expect(judgedBy(CODE, { ...reading, ppm: 200 }, aLabel('chlorine', { ppm: 120 })).decided?.limit.aspect).toBe('cap')
  })
})
