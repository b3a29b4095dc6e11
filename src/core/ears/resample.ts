/** Another sample rate by a windowed sinc, for whole recordings and for microphones that do not run at 16 kHz. */

const LOBES = 16

/** Gives `samples` at the rate `to`, Hz. */
export function resampled(samples: Float32Array, from: number, to: number): Float32Array {
  if (from === to) return samples
  const step = from / to
  // Below the lower of the two Nyquist limits, with a little room for the filter's slope.
  const cutoff = Math.min(1, to / from) * 0.95
  const reach = Math.ceil(LOBES / cutoff)
  return Float32Array.from({ length: Math.floor(samples.length / step) }, (_, at) => {
    const middle = at * step
    const first = Math.ceil(middle - reach)
    let sum = 0
    let weights = 0
    for (let k = first; k <= middle + reach; k++) {
      const weight = kernel(k - middle, cutoff, reach)
      weights += weight
      sum += weight * (samples[k] ?? 0)
    }
    return sum / weights
  })
}

/** Sinc under a Hann window. */
function kernel(distance: number, cutoff: number, reach: number): number {
  const x = Math.PI * distance * cutoff
  const sinc = x === 0 ? 1 : Math.sin(x) / x
  return sinc * (0.5 + 0.5 * Math.cos((Math.PI * distance) / reach))
}
