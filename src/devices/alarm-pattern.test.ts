import { describe, expect, test } from 'vitest'
import { burstOf, OVERTONES, type Burst } from './alarm-pattern.ts'

const bursts = [0, 1, 2, 3].map((urgency) => ({ urgency, burst: burstOf(urgency) }))
const components = (hertz: number) => OVERTONES.map((_, index) => hertz * (index + 1))
const pitches = (burst: Burst) => [...new Set(burst.pulses.map((pulse) => pulse.hertz))]
const rate = (burst: Burst) => 1000 / ((burst.pulses[1]?.atMs ?? Number.NaN) - (burst.pulses[0]?.atMs ?? Number.NaN))

describe.each(bursts)('urgency $urgency', ({ burst }) => {
  test('all energy lies within 500 to 3000 Hz (MIL-STD-1472E 5.3)', () => {
    for (const hertz of pitches(burst).flatMap(components)) {
      expect(hertz).toBeGreaterThanOrEqual(500)
      expect(hertz).toBeLessThanOrEqual(3000)
    }
  })

  test('at least four components lie within 1 to 4 kHz (FAA auditory displays)', () => {
    for (const hertz of pitches(burst)) {
      expect(components(hertz).filter((one) => one >= 1000 && one <= 4000).length).toBeGreaterThanOrEqual(4)
    }
  })

  test('it pulses 1 to 3 times a second (FAA), within 0.5 to 4 (ISO 7731, from memory)', () => {
    expect(rate(burst)).toBeGreaterThanOrEqual(1)
    expect(rate(burst)).toBeLessThanOrEqual(3.0001)
  })

  test('each pulse rises over 10 to 20 % of its length (IEC 60601-1-8:2011 rationale) and ends before the next', () => {
    for (const [index, pulse] of burst.pulses.entries()) {
      expect(pulse.riseMs / pulse.lengthMs).toBeGreaterThanOrEqual(0.1)
      expect(pulse.riseMs / pulse.lengthMs).toBeLessThanOrEqual(0.2)
      expect(pulse.riseMs + pulse.fallMs).toBeLessThan(pulse.lengthMs)
      expect(pulse.peak).toBeGreaterThan(0)
      expect(pulse.peak).toBeLessThanOrEqual(1)
      expect(pulse.atMs + pulse.lengthMs).toBeLessThanOrEqual(burst.pulses[index + 1]?.atMs ?? burst.lengthMs)
    }
  })
})

test('every step of urgency is louder, quicker and longer', () => {
  for (const [index, { burst }] of bursts.slice(1).entries()) {
    const before = bursts[index]?.burst ?? burst
    expect(burst.pulses[0]?.peak).toBeGreaterThan(before.pulses[0]?.peak ?? 1)
    expect(rate(burst)).toBeGreaterThan(rate(before))
    expect(burst.lengthMs).toBeGreaterThan(before.lengthMs)
  }
})

test('the urgent ones vary their pitch (92/58/EEC family: a varying frequency is more urgent)', () => {
  expect(bursts.map(({ burst }) => pitches(burst).length)).toEqual([1, 1, 2, 2])
})

test('an urgency outside the four counts as the nearest', () => {
  expect(burstOf(-1)).toEqual(burstOf(0))
  expect(burstOf(9)).toEqual(burstOf(3))
})
