/** What each shipped rule set asks for differently, beside its source; and how sure each file is of its figures. */
import { describe, expect, it } from 'vitest'
import { contactNeeded } from '../../src/core/sanitizer/contact-needed.ts'
import type { Reading } from '../../src/core/sanitizer/reading.ts'
import { aLabel, celsius, fahrenheit, judgedBy, missingIn, outOf, rulesNamed } from './judging.ts'
import { RULE_SETS } from './shipped-rule-sets.ts'

describe('California Health and Safety Code 114099.6', () => {
  it.each([
    // 100 ppm and 30 s; no temperature and no pH.
    [{ subject: 'chlorine', ppm: 100, seconds: 30 }, []],
    [{ subject: 'chlorine', ppm: 99.9, seconds: 30 }, ['ppm below 100']],
    [{ subject: 'chlorine', ppm: 100, seconds: 29.9 }, ['seconds below 30']],
    // 25 ppm and 60 s; 25 is the federal cap as well.
    [{ subject: 'iodine', ppm: 25, seconds: 60 }, []],
    [{ subject: 'iodine', ppm: 24.9, seconds: 60 }, ['ppm below 25']],
    [{ subject: 'iodine', ppm: 25.1, seconds: 60 }, ['ppm above 25']],
    [{ subject: 'iodine', ppm: 25, seconds: 59.9 }, ['seconds below 60']],
    // 200 ppm and 60 s, whatever the label.
    [{ subject: 'quat', ppm: 200, seconds: 60 }, []],
    [{ subject: 'quat', ppm: 199.9, seconds: 60 }, ['ppm below 200']],
    [{ subject: 'quat', ppm: 200, seconds: 59.9 }, ['seconds below 60']],
    // 171 F and 30 s; the rule names no Celsius.
    [{ subject: 'hot-water', temperature: fahrenheit(171), seconds: 30 }, []],
    [{ subject: 'hot-water', temperature: fahrenheit(170.9), seconds: 30 }, ['temperature below 171']],
    [{ subject: 'hot-water', temperature: celsius(77.3), seconds: 30 }, []],
    [{ subject: 'hot-water', temperature: celsius(77.2), seconds: 30 }, ['temperature below 77.2222']]
  ] satisfies [Reading, string[]][])('%o', (reading, expected) => {
    const judged = judgedBy('california', reading)
    expect(outOf(judged)).toEqual(expected)
    expect(judged.verdict).toBe(expected.length === 0 ? 'good' : 'out')
  })

  it('takes cap and cold holding from the model code, and says so', () => {
    const judged = judgedBy('california', { subject: 'chlorine', ppm: 201, seconds: 30 })
    expect(outOf(judged)).toEqual(['ppm above 200'])
    expect(judged.decided?.ruleSet.id).toBe('us-food-code')
    expect(judgedBy('california', { subject: 'cold-holding', temperature: fahrenheit(41) }).verdict).toBe('good')
  })
})

describe('Maryland COMAR 10.15.03.16', () => {
  it.each([
    // 50 ppm, 75 F, 7 s.
    [{ subject: 'chlorine', ppm: 50, temperature: fahrenheit(75), seconds: 7 }, []],
    [{ subject: 'chlorine', ppm: 49.9, temperature: fahrenheit(75), seconds: 7 }, ['ppm below 50']],
    [{ subject: 'chlorine', ppm: 50, temperature: fahrenheit(74.9), seconds: 7 }, ['temperature below 75']],
    [{ subject: 'chlorine', ppm: 50, temperature: fahrenheit(75), seconds: 6.9 }, ['seconds below 7']],
    // Iodine needs 75 F here, 68 F in the model code.
    [{ subject: 'iodine', ppm: 12.5, temperature: fahrenheit(75), seconds: 30 }, []],
    [{ subject: 'iodine', ppm: 12.5, temperature: fahrenheit(74.9), seconds: 30 }, ['temperature below 75']],
    // 170 F, one less than elsewhere.
    [{ subject: 'hot-water', temperature: fahrenheit(170), seconds: 30 }, []],
    [{ subject: 'hot-water', temperature: fahrenheit(169.9), seconds: 30 }, ['temperature below 170']]
  ] satisfies [Reading, string[]][])('%o', (reading, expected) => {
    const judged = judgedBy('maryland', reading)
    expect(outOf(judged)).toEqual(expected)
    expect(judged.verdict).toBe(expected.length === 0 ? 'good' : 'out')
  })

  it('leaves quaternary ammonium to the label, for 30 s', () => {
    expect(missingIn(judgedBy('maryland', { subject: 'quat', ppm: 200, seconds: 30 }))).toEqual(['label ppm'])
    const label = aLabel('quat', { ppm: 200 })
    expect(judgedBy('maryland', { subject: 'quat', ppm: 200, seconds: 30 }, label).verdict).toBe('good')
    expect(outOf(judgedBy('maryland', { subject: 'quat', ppm: 200, seconds: 29 }, label))).toEqual(['seconds below 30'])
  })
})

describe('7 Pa. Code 39.54 and 39.55', () => {
  it.each([
    // 39.54(e)(1): 150 F for 30 min, every day.
    [{ subject: 'heat-treatment', temperature: fahrenheit(150), seconds: 1800 }, []],
    [{ subject: 'heat-treatment', temperature: fahrenheit(149.9), seconds: 1800 }, ['temperature below 150']],
    [{ subject: 'heat-treatment', temperature: fahrenheit(150), seconds: 1799 }, ['seconds below 1800']],
    [{ subject: 'heat-treatment', temperature: celsius(65.6), seconds: 1800 }, []],
    // 39.55: 110 to 120 F.
    [{ subject: 'wash-water', temperature: fahrenheit(110) }, []],
    [{ subject: 'wash-water', temperature: fahrenheit(109.9) }, ['temperature below 110']],
    [{ subject: 'wash-water', temperature: fahrenheit(120) }, []],
    [{ subject: 'wash-water', temperature: fahrenheit(120.1) }, ['temperature above 120']]
  ] satisfies [Reading, string[]][])('%o', (reading, expected) => {
    const judged = judgedBy('pennsylvania-dispensers', reading)
    expect(outOf(judged)).toEqual(expected)
    expect(judged.verdict).toBe(expected.length === 0 ? 'good' : 'out')
  })

  it('ask to take a heat-treating machine apart every 14 days at the latest', () => {
    const { duties } = RULE_SETS.find(({ id }) => id === 'pennsylvania-dispensers') ?? { duties: [] }
    expect(duties.filter(({ everySeconds }) => everySeconds === 14 * 86_400)).toMatchObject([{ status: 'read' }])
  })
})

describe('Australia and New Zealand', () => {
  const chlorine: Reading = { subject: 'chlorine', ppm: 100, temperature: celsius(24), ph: 7, seconds: 60 }

  it('hold cold food at 5 C or less', () => {
    // FSANZ Standard 3.2.2; the figure is from memory.
    expect(judgedBy('australia-new-zealand', { subject: 'cold-holding', temperature: celsius(5) }).verdict).toBe('good')
    expect(judgedBy('australia-new-zealand', { subject: 'cold-holding', temperature: celsius(5.1) }).verdict).toBe(
      'out'
    )
  })

  it('leave every strength to the label', () => {
    expect(missingIn(judgedBy('australia-new-zealand', chlorine))).toEqual(['limit solution', 'limit contact'])
    const label = aLabel('chlorine', { ppm: 100, seconds: 120 })
    expect(outOf(judgedBy('australia-new-zealand', chlorine, label))).toEqual(['seconds below 120'])
    expect(judgedBy('australia-new-zealand', { ...chlorine, seconds: 120 }, label).verdict).toBe('good')
  })
})

describe('how long it has to stay on', () => {
  const seconds = (id: string, reading: Reading, label: Parameters<typeof contactNeeded>[2] = null) =>
    contactNeeded(reading, rulesNamed(id), label)?.seconds ?? null

  it.each([
    ['us-food-code', { subject: 'chlorine', ppm: 100, temperature: celsius(13), ph: 8 }, 10],
    ['us-food-code', { subject: 'chlorine', ppm: 50, temperature: celsius(24), ph: 8 }, 7],
    // What was not measured never shortens it.
    ['us-food-code', { subject: 'chlorine', ppm: 50, temperature: celsius(24) }, 10],
    ['us-food-code', { subject: 'chlorine' }, 10],
    ['us-food-code', { subject: 'iodine', ppm: 20 }, 30],
    ['california', { subject: 'quat', ppm: 200 }, 60],
    ['australia-new-zealand', { subject: 'chlorine', ppm: 100 }, null]
  ] satisfies [string, Reading, number | null][])('by %s with %o: %s s', (id, reading, expected) => {
    expect(seconds(id, reading)).toBe(expected)
  })

  it('is the longest of rule and label', () => {
    const reading: Reading = { subject: 'chlorine', ppm: 100 }
    expect(seconds('us-food-code', reading, aLabel('chlorine', { seconds: 120 }))).toBe(120)
    expect(seconds('us-food-code', reading, aLabel('chlorine', { seconds: 2 }))).toBe(10)
  })
})

describe('how sure the figures are', () => {
  const limits = RULE_SETS.filter(({ kind }) => kind === 'jurisdiction').flatMap((set) => set.limits)

  it('is never more than what was seen', () => {
    // Of 40 CFR 180.940 the present table was not seen, save for the notices about quaternary ammonium.
    const caps = limits.filter(({ aspect }) => aspect === 'cap')
    expect(caps.map(({ subject, status }) => `${subject} ${status}`)).toEqual([
      'chlorine memory',
      'iodine memory',
      'quat read'
    ])
    // The model code's own text was not seen, only texts that adopt it, a manual that follows it, or pages about it.
    const modelCode = limits.filter(({ source }) => source.startsWith('FDA Food Code'))
    expect(modelCode.length).toBeGreaterThan(8)
    expect(modelCode.filter(({ status, source }) => status === 'read' && !source.includes('Navy'))).toEqual([])
  })

  it('is told with a source and an edition each time', () => {
    const cited = RULE_SETS.flatMap((set) => [...set.limits, ...set.duties])
    expect(cited.length).toBeGreaterThan(40)
    expect(cited.filter(({ source, edition }) => source.length < 8 || edition === '')).toEqual([])
  })
})
