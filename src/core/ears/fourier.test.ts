import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { FOURIER_SIZE, powerSpectrum, SPECTRUM_SIZE } from './fourier.ts'

const anySamples = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), {
  minLength: FOURIER_SIZE,
  maxLength: FOURIER_SIZE
})

function spectrumOf(samples: readonly number[]): Float64Array {
  const into = new Float64Array(SPECTRUM_SIZE)
  powerSpectrum(Float64Array.from(samples), into)
  return into
}

describe('power spectrum', () => {
  test('is the sum that defines it', () => {
    fc.assert(
      fc.property(anySamples, fc.integer({ min: 0, max: SPECTRUM_SIZE - 1 }), (samples, k) => {
        let [real, imaginary] = [0, 0]
        samples.forEach((value, at) => {
          real += value * Math.cos((2 * Math.PI * k * at) / FOURIER_SIZE)
          imaginary -= value * Math.sin((2 * Math.PI * k * at) / FOURIER_SIZE)
        })
        expect(spectrumOf(samples)[k]).toBeCloseTo(real ** 2 + imaginary ** 2, 6)
      }),
      { numRuns: 30 }
    )
  })

  test("keeps the energy (Parseval's theorem)", () => {
    fc.assert(
      fc.property(anySamples, (samples) => {
        const spectrum = spectrumOf(samples)
        const ends = (spectrum[0] ?? 0) + (spectrum[SPECTRUM_SIZE - 1] ?? 0)
        const energy = (2 * spectrum.reduce((sum, power) => sum + power, 0) - ends) / FOURIER_SIZE
        expect(energy).toBeCloseTo(
          samples.reduce((sum, value) => sum + value ** 2, 0),
          6
        )
      }),
      { numRuns: 30 }
    )
  })
})
