/** Another sample rate by a windowed sinc, for whole recordings and for microphones that do not run at 16 kHz. */

const LOBES = 16

/** Gives `samples` at the rate `to`, Hz. */
export function resampled(samples: Float32Array, from: number, to: number): Float32Array {
  if (from === to) return samples
  const step = from / to
  // Below the lower of the two Nyquist limits, with a little room for the filter's slope.
  const cutoff = Math.min(1, to / from) * 0.95
  const reach = Math.ceil(LOBES / cutoff)
  return Float32Array.from({ length: Math.floor(samples.length / step) }, (_, at) =>
    valueAt(samples, at * step, cutoff, reach)
  )
}

function valueAt(samples: Float32Array, middle: number, cutoff: number, reach: number): number {
  let sum = 0
  let weights = 0
  for (let k = Math.ceil(middle - reach); k <= middle + reach; k++) {
    const weight = kernel(k - middle, cutoff, reach)
    weights += weight
    sum += weight * (samples[k] ?? 0)
  }
  return sum / weights
}

/** Sinc under a Hann window. */
function kernel(distance: number, cutoff: number, reach: number): number {
  const x = Math.PI * distance * cutoff
  const sinc = x === 0 ? 1 : Math.sin(x) / x
  return sinc * (0.5 + 0.5 * Math.cos((Math.PI * distance) / reach))
}

/** The same for a stream: portions in, portions out, without a seam. */
export function resampler(from: number, to: number): (samples: Float32Array) => Float32Array {
  if (from === to) return (samples) => samples
  const step = from / to
  const cutoff = Math.min(1, to / from) * 0.95
  const reach = Math.ceil(LOBES / cutoff)
  let kept = new Float32Array(reach)
  /** Where the next value lies in what is kept. */
  let next = reach
  return (samples) => {
    const all = new Float32Array(kept.length + samples.length)
    all.set(kept)
    all.set(samples, kept.length)
    const count = Math.max(0, Math.ceil((all.length - reach - next) / step))
    const out = Float32Array.from({ length: count }, (_, at) => valueAt(all, next + at * step, cutoff, reach))
    const over = Math.max(0, Math.floor(next + count * step) - reach)
    kept = all.slice(over)
    next += count * step - over
    return out
  }
}
