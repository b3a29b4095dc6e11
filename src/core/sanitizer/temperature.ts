/** Both scales of a temperature. */

export type TemperatureUnit = 'C' | 'F'
export interface Temperature {
  readonly value: number
  readonly unit: TemperatureUnit
}

/** Exact by definition: 32 degrees F is 0 degrees C, and 1.8 degrees F make one (NIST SP 811, Appendix B.8). */
export function inUnit({ value, unit }: Temperature, wanted: TemperatureUnit): number {
  if (unit === wanted) return value
  return wanted === 'F' ? value * 1.8 + 32 : (value - 32) / 1.8
}
