import { describe, expect, test } from 'vitest'
import { inUnits, textFor } from './quantities.ts'

describe('amounts in two systems', () => {
  test.each([
    ['Fill in {7.6 L | 2 gal}.', 'Fill in 7.6 L.', 'Fill in 2 gal.'],
    ['{120 mL|4 fl oz} at {43 C | 110 F}', '120 mL at 43 C', '4 fl oz at 110 F'],
    ['Nothing to choose.', 'Nothing to choose.', 'Nothing to choose.'],
    ['{ 1 L | 1 qt }', '1 L', '1 qt']
  ])('%s', (written, metric, us) => {
    expect(inUnits(written, 'metric')).toBe(metric)
    expect(inUnits(written, 'us')).toBe(us)
  })
})

test('for reading, an amount stands in both systems', () => {
  const text = { en: 'Pour {7.6 L | 2 gal} of water at {24 °C | 75 °F}.', es: 'Vierta {7.6 L | 2 gal}.' }
  expect(textFor(text, 'en')).toBe('Pour 7.6 L (2 gal) of water at 24 °C (75 °F).')
  expect([textFor(text, 'es'), textFor({ es: text.es }, 'en')]).toEqual(Array(2).fill('Vierta 7.6 L (2 gal).'))
})
