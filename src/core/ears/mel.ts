/**
 * Mel bands as the embedding model was trained on: 25 ms Hann windows every 10 ms, 32 bands from 60 to 3,800 Hz on
 * Slaney's scale, each of equal area. The test compares them with the model that ships for this purpose.
 */
import { FOURIER_SIZE, powerSpectrum, SPECTRUM_SIZE } from './fourier.ts'
import { BANDS, SAMPLE_RATE } from './sound.ts'

const HANN_SAMPLES = 400
const LOWEST_HZ = 60
const HIGHEST_HZ = 3800
/** Models of this family take samples as 16-bit numbers. */
const SCALE = 32_768

/** Slaney's scale is linear up to 1 kHz and logarithmic above (Auditory Toolbox, 1998). */
const LINEAR_HZ = 200 / 3
const BREAK_HZ = 1000
const BREAK_MEL = BREAK_HZ / LINEAR_HZ
const LOG_STEP = Math.log(6.4) / 27

const melOf = (hz: number) => (hz < BREAK_HZ ? hz / LINEAR_HZ : BREAK_MEL + Math.log(hz / BREAK_HZ) / LOG_STEP)
const hzOf = (mel: number) => (mel < BREAK_MEL ? mel * LINEAR_HZ : BREAK_HZ * Math.exp((mel - BREAK_MEL) * LOG_STEP))

const EDGES = Float64Array.from({ length: BANDS + 2 }, (_, at) => {
  const low = melOf(LOWEST_HZ)
  return hzOf(low + ((melOf(HIGHEST_HZ) - low) * at) / (BANDS + 1))
})

/** Middle of each band, Hz. */
export const BAND_HZ: readonly number[] = Array.from({ length: BANDS }, (_, band) => EDGES[band + 1] ?? 0)

interface Band {
  readonly first: number
  readonly weights: Float64Array
}

const FILTERS: readonly Band[] = Array.from({ length: BANDS }, (_, band) => {
  const [low = 0, middle = 0, high = 0] = EDGES.subarray(band, band + 3)
  const binHz = SAMPLE_RATE / FOURIER_SIZE
  const first = Math.ceil(low / binHz)
  const last = Math.min(SPECTRUM_SIZE - 1, Math.floor(high / binHz))
  const weights = Float64Array.from({ length: last - first + 1 }, (_unused, at) => {
    const hz = (first + at) * binHz
    const height = Math.min((hz - low) / (middle - low), (high - hz) / (high - middle))
    return (Math.max(0, height) * 2) / (high - low)
  })
  return { first, weights }
})

const OFFSET = (FOURIER_SIZE - HANN_SAMPLES) / 2
const HANN = Float64Array.from(
  { length: HANN_SAMPLES },
  (_, at) => (0.5 - 0.5 * Math.cos((2 * Math.PI * at) / HANN_SAMPLES)) * SCALE
)

const windowed = new Float64Array(FOURIER_SIZE)
const spectrum = new Float64Array(SPECTRUM_SIZE)

/** Band powers of the 512 samples from `start`, into `into` from `at`. */
export function melPowers(samples: Float32Array, start: number, into: Float32Array, at: number): void {
  for (let k = 0; k < HANN_SAMPLES; k++) {
    windowed[OFFSET + k] = (samples[start + OFFSET + k] ?? 0) * (HANN[k] ?? 0)
  }
  powerSpectrum(windowed, spectrum)
  FILTERS.forEach(({ first, weights }, band) => {
    let power = 0
    for (let k = 0; k < weights.length; k++) power += (spectrum[first + k] as number) * (weights[k] as number)
    into[at + band] = power
  })
}
