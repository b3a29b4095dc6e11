/** Noise and levels for listening tests. */

/** Pink noise, the same for the same seed: white noise through P. Kellet's filter (musicdsp.org, from memory). */
function pinkNoise(length: number, chance: () => number): Float32Array {
  let [b0, b1, b2] = [0, 0, 0]
  return Float32Array.from({ length }, () => {
    const white = chance() * 2 - 1
    b0 = 0.99765 * b0 + white * 0.099046
    b1 = 0.963 * b1 + white * 0.2965164
    b2 = 0.57 * b2 + white * 1.0526913
    return b0 + b1 + b2 + white * 0.1848
  })
}

const FRAME = 160
/** Below the loudest frame by 25 dB it is no speech. */
const SPEECH = 10 ** (-25 / 20)

/** Root mean square of the frames that are loud enough to be speech; 1 is full scale. */
export function speechLevel(pcm: Int16Array): number {
  const frames = Array.from({ length: Math.ceil(pcm.length / FRAME) }, (_, index) =>
    rootMeanSquare(Float32Array.from(pcm.subarray(index * FRAME, (index + 1) * FRAME), (value) => value / 32768))
  )
  const loud = frames.filter((level) => level > Math.max(...frames) * SPEECH)
  return Math.sqrt(loud.reduce((sum, level) => sum + level * level, 0) / Math.max(1, loud.length))
}

function rootMeanSquare(samples: Float32Array): number {
  return Math.sqrt(samples.reduce((sum, value) => sum + value * value, 0) / Math.max(1, samples.length))
}

/** With a moment before and after, and noise `decibels` below the speech; none when null. */
export function inNoise(pcm: Int16Array, decibels: number | null, chance: () => number): Int16Array {
  const around = 4800
  const length = pcm.length + 2 * around
  const noise = pinkNoise(length, chance)
  const gain = decibels === null ? 0 : (speechLevel(pcm) / 10 ** (decibels / 20) / rootMeanSquare(noise)) * 32768
  // Quieter together, so that nothing is cut off.
  return Int16Array.from({ length }, (_, index) =>
    Math.max(-32768, Math.min(32767, Math.round(((pcm[index - around] ?? 0) + (noise[index] ?? 0) * gain) * 0.5)))
  )
}
