/** Band powers on the scale of the embedding model. */

/** The front end that the model was trained with cuts off this far below the loudest value of a clip, dB. */
const RANGE_DB = 80
const LEAST_POWER = 1e-10

/** Decibels / 10 + 2, never more than 80 dB below the loudest. */
export function logMel(powers: Float32Array): Float32Array {
  let loudest = LEAST_POWER
  for (const power of powers) if (power > loudest) loudest = power
  const least = Math.max(LEAST_POWER, loudest * 10 ** (-RANGE_DB / 10))
  return powers.map((power) => Math.log10(Math.max(power, least)) + 2)
}
