/** Amounts are written twice, metric and US; both must be the same amount. */
import { describe, expect, it } from 'vitest'
import { SHIPPED_FILES } from './shipped-files.ts'

/** Litres. NIST Handbook 44, Appendix C: exact values of the US gallon and the US fluid ounce. */
const LITRES: Readonly<Record<string, number>> = { L: 1, mL: 0.001, gal: 3.785411784, 'fl oz': 0.0295735295625 }

const written = SHIPPED_FILES.flatMap(({ name, text }) =>
  [...text.matchAll(/\{([^{}|]*)\|([^{}]*)\}/g)].map(([whole, metric = '', us = '']) => ({ name, whole, metric, us }))
)

function amount(text: string): { value: number; unit: string } {
  const [, value = '', unit = ''] = /^(\d+(?:\.\d+)?) (L|mL|C|gal|fl oz|F)$/.exec(text.trim()) ?? []
  if (unit === '') throw new Error(`not an amount: ${text}`)
  return { value: Number(value), unit }
}

describe('amounts in the shipped procedures', () => {
  it('are there to be checked', () => {
    expect(written.length).toBeGreaterThan(25)
  })

  it.each(written)('$name $whole: metric first, and both agree', ({ metric, us }) => {
    const [first, second] = [amount(metric), amount(us)]
    if (first.unit === 'C') {
      // Exact by definition: F = C x 9/5 + 32. Published pairs such as 43 C (110 F) are rounded by up to 1 F.
      expect(second.unit).toBe('F')
      expect(Math.abs(first.value * 1.8 + 32 - second.value)).toBeLessThanOrEqual(1)
      return
    }
    expect(['L', 'mL']).toContain(first.unit)
    expect(['gal', 'fl oz']).toContain(second.unit)
    const ratio = (first.value * (LITRES[first.unit] ?? NaN)) / (second.value * (LITRES[second.unit] ?? NaN))
    expect(Math.abs(ratio - 1)).toBeLessThanOrEqual(0.06)
  })

  it('stand in braces only as such pairs', () => {
    const inTexts = SHIPPED_FILES.flatMap(({ text }) => text.split('\n').filter((line) => !/^\s*(- \{ id|- step|again:)/.test(line)))
    const loose = inTexts.filter((line) => /(?:^|[^{\d.])\d+(?:\.\d+)? ?(?:L|mL|gal|fl oz)\b/.test(line.replaceAll(/\{[^}]*\}/g, '')))
    expect(loose.filter((line) => !/^\s*(#|at least|at most)/.test(line))).toEqual([])
  })
})
