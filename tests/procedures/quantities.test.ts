/** Amounts are written twice, metric and US; both must be the same amount. */
import { describe, expect, it } from 'vitest'
import { SHIPPED_FILES } from './shipped-files.ts'

/** Litres. NIST Handbook 44, Appendix C: exact values of the US gallon and the US fluid ounce. */
const LITRES: Readonly<Record<string, number>> = { L: 1, mL: 0.001, gal: 3.785411784, 'fl oz': 0.0295735295625 }

const written = SHIPPED_FILES.flatMap(({ name, text }) =>
  [...text.matchAll(/\{([^{}|]*)\|([^{}]*)\}/g)].map(([whole, metric = '', us = '']) => ({ name, whole, metric, us }))
)
const temperatures = written.filter(({ metric }) => metric.trim().endsWith(' C'))
const volumes = written.filter((pair) => !temperatures.includes(pair))

function amount(text: string, units: readonly string[]): { value: number; unit: string } {
  const [, value = '', unit = ''] = /^(\d+(?:\.\d+)?) ([A-Za-z ]+)$/.exec(text.trim()) ?? []
  if (!units.includes(unit)) throw new Error(`"${text}" is no amount in ${units.join(' or ')}`)
  return { value: Number(value), unit }
}

function litres(text: string, units: readonly string[]): number {
  const { value, unit } = amount(text, units)
  return value * (LITRES[unit] ?? Number.NaN)
}

describe('amounts in the shipped procedures', () => {
  it('are there to be checked', () => {
    expect(volumes.length).toBeGreaterThan(15)
    expect(temperatures.length).toBeGreaterThan(8)
  })

  it.each(volumes)('$name $whole: metric first, and both agree within 6 %', ({ metric, us }) => {
    expect(Math.abs(litres(metric, ['L', 'mL']) / litres(us, ['gal', 'fl oz']) - 1)).toBeLessThanOrEqual(0.06)
  })

  it.each(temperatures)('$name $whole: Celsius first, and both agree within 1 F', ({ metric, us }) => {
    // Exact by definition: F = C x 9/5 + 32. Published pairs such as 43 C (110 F) are rounded by up to 1 F.
    const fahrenheit = amount(metric, ['C']).value * 1.8 + 32
    expect(Math.abs(fahrenheit - amount(us, ['F']).value)).toBeLessThanOrEqual(1)
  })

  it('are never written in one system only', () => {
    const outside = SHIPPED_FILES.map(({ text }) => text.replaceAll(/\{[^{}|]*\|[^{}]*\}/g, '')).join('\n')
    expect(outside.match(/\d ?(L|mL|gal|fl oz)\b.*/g) ?? []).toEqual([])
  })
})
