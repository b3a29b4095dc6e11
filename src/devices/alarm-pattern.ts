/**
 * What the alarm sounds like: bursts of pulsed tones of our own, sounder and quicker with every unanswered repeat.
 *
 * The figures it keeps to:
 * - MIL-STD-1472E 5.3: 200 to 5000 Hz, preferably 500 to 3000; at most four signals to be told apart.
 * - FAA human factors guidance, auditory displays: at least four components within 1 to 4 kHz; modulation 1 to 3 a second.
 * - ISO 7731 (figures from memory): energy 500 to 2500 Hz, pulsing 0.5 to 4 Hz, 15 dB(A) over the noise.
 * - IEC 60601-1-8:2011 rationale, as an idea only: a rise of 10 to 20 % of the pulse, so that it does not startle.
 * - Council Directive 92/58/EEC family: a varying frequency reads as more urgent than a constant one.
 *
 * A kitchen has about 80 dB(A) (University of Iowa restaurant study, 2014), so 15 dB over it is more than a tablet's
 * loudspeaker gives at arm's length: the tone is never the only sign.
 */

export interface Pulse {
  /** From the beginning of the burst, ms. */
  readonly atMs: number
  readonly lengthMs: number
  readonly riseMs: number
  readonly fallMs: number
  /** Fundamental, Hz; the overtones below go with it. */
  readonly hertz: number
  /** Peak, 0 to 1 of full scale. */
  readonly peak: number
}

export interface Burst {
  readonly pulses: readonly Pulse[]
  readonly lengthMs: number
}

/** Strength of the fundamental and its overtones; the fifth of the higher pitch still lies below 3000 Hz. */
export const OVERTONES: readonly number[] = [0.6, 1, 0.9, 0.8, 0.7]
const LOW_HERTZ = 520
const HIGH_HERTZ = 590

interface Level {
  readonly pulses: number
  readonly pulsesPerSecond: number
  readonly lengthMs: number
  readonly peak: number
  readonly pitches: readonly number[]
}

const LEVELS: readonly [Level, Level, Level, Level] = [
  { pulses: 2, pulsesPerSecond: 1.5, lengthMs: 300, peak: 0.5, pitches: [LOW_HERTZ] },
  { pulses: 3, pulsesPerSecond: 2, lengthMs: 280, peak: 0.7, pitches: [LOW_HERTZ] },
  { pulses: 5, pulsesPerSecond: 2.5, lengthMs: 250, peak: 0.85, pitches: [LOW_HERTZ, HIGH_HERTZ] },
  { pulses: 8, pulsesPerSecond: 3, lengthMs: 220, peak: 1, pitches: [HIGH_HERTZ, LOW_HERTZ] }
]

/** Soft, and like no alarm: there is something to read that could not be said. */
export const READ_ME: Burst = {
  lengthMs: 360,
  pulses: [LOW_HERTZ / 1.25, HIGH_HERTZ / 1.5].map((hertz, index) => ({
    atMs: index * 180,
    lengthMs: 170,
    riseMs: 30,
    fallMs: 90,
    hertz,
    peak: 0.25
  }))
}

/** `urgency` 0 to 3; what lies outside counts as the nearest. */
export function burstOf(urgency: number): Burst {
  const level = LEVELS[urgency < 1 ? 0 : urgency < 2 ? 1 : urgency < 3 ? 2 : 3]
  const everyMs = 1000 / level.pulsesPerSecond
  const pulses = Array.from({ length: level.pulses }, (_, index) => ({
    atMs: index * everyMs,
    lengthMs: level.lengthMs,
    riseMs: level.lengthMs * 0.15,
    fallMs: level.lengthMs * 0.25,
    hertz: level.pitches[index % level.pitches.length] ?? LOW_HERTZ,
    peak: level.peak
  }))
  return { pulses, lengthMs: (level.pulses - 1) * everyMs + level.lengthMs }
}
