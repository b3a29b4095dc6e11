/** Power spectrum of 512 real samples, by a radix-2 transform (Cooley and Tukey 1965). */

export const FOURIER_SIZE = 512
export const SPECTRUM_SIZE = FOURIER_SIZE / 2 + 1

const COSINES = Float64Array.from({ length: FOURIER_SIZE / 2 }, (_, k) => Math.cos((2 * Math.PI * k) / FOURIER_SIZE))
const SINES = Float64Array.from({ length: FOURIER_SIZE / 2 }, (_, k) => -Math.sin((2 * Math.PI * k) / FOURIER_SIZE))
const REVERSED = Uint16Array.from({ length: FOURIER_SIZE }, (_, at) => reversedBits(at))

const real = new Float64Array(FOURIER_SIZE)
const imaginary = new Float64Array(FOURIER_SIZE)

/** Takes the first 512 of `samples` and puts 257 powers into `into`. Indexes stay within both, so none is undefined. */
export function powerSpectrum(samples: Float64Array, into: Float64Array): void {
  for (let at = 0; at < FOURIER_SIZE; at++) real[at] = samples[REVERSED[at] as number] as number
  imaginary.fill(0)
  for (let half = 1; half < FOURIER_SIZE; half *= 2) {
    const stride = FOURIER_SIZE / (2 * half)
    for (let k = 0; k < half; k++) {
      const cosine = COSINES[k * stride] as number
      const sine = SINES[k * stride] as number
      for (let low = k; low < FOURIER_SIZE; low += 2 * half) {
        const high = low + half
        const highReal = real[high] as number
        const highImaginary = imaginary[high] as number
        const turnedReal = highReal * cosine - highImaginary * sine
        const turnedImaginary = highReal * sine + highImaginary * cosine
        const lowReal = real[low] as number
        const lowImaginary = imaginary[low] as number
        real[low] = lowReal + turnedReal
        imaginary[low] = lowImaginary + turnedImaginary
        real[high] = lowReal - turnedReal
        imaginary[high] = lowImaginary - turnedImaginary
      }
    }
  }
  for (let k = 0; k < SPECTRUM_SIZE; k++) into[k] = (real[k] as number) ** 2 + (imaginary[k] as number) ** 2
}

function reversedBits(value: number): number {
  let reversed = 0
  for (let bit = 1; bit < FOURIER_SIZE; bit *= 2) reversed = reversed * 2 + ((value & bit) === 0 ? 0 : 1)
  return reversed
}
