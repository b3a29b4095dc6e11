/** Another sample rate by a windowed sinc, for whole recordings and for microphones that do not run at 16 kHz. */

const LOBES = 16

interface Kernel {
  /** Samples on either side that count. */
  readonly reach: number
  /** The value at `place` samples plus `part` steps of the finest common grid behind the first of `samples`. */
  valueAt(samples: Float32Array, place: number, part: number): number
  /** Parts that a sample of the source has, and that a sample of the result moves on by. */
  readonly parts: number
  readonly step: number
}

/** Both rates in whole Hz: then few places between two samples occur, and their weights are worked out once. */
function kernelOf(from: number, to: number): Kernel {
  const common = commonDivisor(from, to)
  // Below the lower of the two Nyquist limits, with a little room for the filter's slope.
  const cutoff = Math.min(1, to / from) * 0.95
  const reach = Math.ceil(LOBES / cutoff)
  const parts = to / common
  const known: Float64Array[] = []
  return {
    reach,
    parts,
    step: from / common,
    valueAt(samples, place, part) {
      const weights = (known[part] ??= weightsAt(part / parts, cutoff, reach))
      let sum = 0
      for (let k = 0; k < weights.length; k++) sum += (weights[k] as number) * (samples[place - reach + k] ?? 0)
      return sum
    }
  }
}

function commonDivisor(one: number, other: number): number {
  return other === 0 ? one : commonDivisor(other, one % other)
}

/** Sinc under a Hann window, for the samples from `reach` before to `reach` behind; their sum is 1. */
function weightsAt(fraction: number, cutoff: number, reach: number): Float64Array {
  const weights = Float64Array.from({ length: 2 * reach + 1 }, (_, k) => {
    const distance = k - reach - fraction
    if (Math.abs(distance) >= reach) return 0
    const x = Math.PI * distance * cutoff
    const sinc = x === 0 ? 1 : Math.sin(x) / x
    return sinc * (0.5 + 0.5 * Math.cos((Math.PI * distance) / reach))
  })
  const sum = weights.reduce((total, weight) => total + weight, 0)
  return weights.map((weight) => weight / sum)
}

/** Gives `samples` at the rate `to`; both in whole Hz. */
export function resampled(samples: Float32Array, from: number, to: number): Float32Array {
  if (from === to) return samples
  const { parts, step, valueAt } = kernelOf(from, to)
  const out = new Float32Array(Math.floor((samples.length * parts) / step))
  for (let at = 0; at < out.length; at++) {
    out[at] = valueAt(samples, Math.floor((at * step) / parts), (at * step) % parts)
  }
  return out
}

/** The same for a stream: portions in, portions out, without a seam. */
export function resampler(from: number, to: number): (samples: Float32Array) => Float32Array {
  if (from === to) return (samples) => samples
  const { reach, parts, step, valueAt } = kernelOf(from, to)
  let kept = new Float32Array(reach)
  /** Where the next value lies in what is kept, in parts. */
  let next = reach * parts
  return (samples) => {
    const all = new Float32Array(kept.length + samples.length)
    all.set(kept)
    all.set(samples, kept.length)
    const count = Math.max(0, Math.ceil(((all.length - reach) * parts - next) / step))
    const out = new Float32Array(count)
    for (let at = 0; at < count; at++, next += step) out[at] = valueAt(all, Math.floor(next / parts), next % parts)
    const over = Math.max(0, Math.floor(next / parts) - reach)
    kept = all.slice(over)
    next -= over * parts
    return out
  }
}
