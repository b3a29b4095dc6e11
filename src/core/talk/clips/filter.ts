/** Filters of second order, after R. Bristow-Johnson, "Cookbook formulae for audio EQ biquad filter coefficients" (W3C note). */

export interface Filter {
  readonly b: readonly [number, number, number]
  readonly a: readonly [number, number]
}

/** Takes away what is below `hertz`; 12 dB an octave. */
export function highPass(hertz: number, rate: number): Filter {
  const { cos, alpha } = angle(hertz, rate, Math.SQRT1_2)
  return scaled([(1 + cos) / 2, -(1 + cos), (1 + cos) / 2], [1 + alpha, -2 * cos, 1 - alpha])
}

/** Lifts what is above `hertz` by `decibels`. */
export function highShelf(hertz: number, decibels: number, rate: number): Filter {
  const gain = 10 ** (decibels / 40)
  const { cos, alpha } = angle(hertz, rate, Math.SQRT1_2)
  const edge = 2 * Math.sqrt(gain) * alpha
  return scaled(
    [
      gain * (gain + 1 + (gain - 1) * cos + edge),
      -2 * gain * (gain - 1 + (gain + 1) * cos),
      gain * (gain + 1 + (gain - 1) * cos - edge)
    ],
    [gain + 1 - (gain - 1) * cos + edge, 2 * (gain - 1 - (gain + 1) * cos), gain + 1 - (gain - 1) * cos - edge]
  )
}

export function filtered(samples: Float32Array, { b, a }: Filter): Float32Array {
  const out = new Float32Array(samples.length)
  let [x1, x2, y1, y2] = [0, 0, 0, 0]
  for (let index = 0; index < samples.length; index += 1) {
    const x = samples[index] ?? 0
    const y = b[0] * x + b[1] * x1 + b[2] * x2 - a[0] * y1 - a[1] * y2
    ;[x2, x1, y2, y1] = [x1, x, y1, y]
    out[index] = y
  }
  return out
}

function angle(hertz: number, rate: number, quality: number): { readonly cos: number; readonly alpha: number } {
  const turn = (2 * Math.PI * hertz) / rate
  return { cos: Math.cos(turn), alpha: Math.sin(turn) / (2 * quality) }
}

function scaled(b: readonly [number, number, number], [a0, a1, a2]: readonly [number, number, number]): Filter {
  return { b: [b[0] / a0, b[1] / a0, b[2] / a0], a: [a1 / a0, a2 / a0] }
}
