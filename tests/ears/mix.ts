/** Levels and mixing. Speech is as loud as its loud parts are; pauses do not count (the idea of ITU-T P.56). */
import { SAMPLE_RATE } from '../../src/core/ears/sound.ts'

const BLOCK = SAMPLE_RATE / 50
const ACTIVE_WITHIN_DB = 25

/** Mean square of the blocks within 25 dB of the loudest. */
export function speechPower(samples: Float32Array): number {
  const powers: number[] = []
  for (let at = 0; at + BLOCK <= samples.length; at += BLOCK) powers.push(meanSquare(samples.subarray(at, at + BLOCK)))
  const loudest = powers.reduce((most, power) => Math.max(most, power), 1e-12)
  const active = powers.filter((power) => power > loudest * 10 ** (-ACTIVE_WITHIN_DB / 10))
  return active.reduce((sum, power) => sum + power, 0) / Math.max(1, active.length)
}

export function meanSquare(samples: Float32Array): number {
  let sum = 0
  for (const value of samples) sum += value * value
  return sum / Math.max(1, samples.length)
}

/** `speech` with `noise` under it, `snr` dB below; the noise is repeated when it is too short. */
export function mixedAt(speech: Float32Array, power: number, noise: Float32Array, snr: number): Float32Array {
  const gain = Math.sqrt(power / (meanSquare(noise) * 10 ** (snr / 10)))
  return speech.map((value, at) => value + gain * (noise[at % noise.length] ?? 0))
}
