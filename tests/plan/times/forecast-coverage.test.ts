/**
 * What is foretold must come as often as it says. The shops' truth is invented, and wilder than what is believed before
 * any run: more noise, people further apart, and one time in forty lasts five times as long.
 */
import { expect, it } from 'vitest'
import { forecastCoverage } from './forecast-coverage.ts'

/** With 150 shops, two standard errors are 0.065 at 80 % and 0.036 at 95 %. */
it.each([2, 10])('after %i runs, the finish keeps to P80 and P95 about as often as they say', (runs) => {
  const { p50, p80, p95, off } = forecastCoverage(runs, 150, 3)
  expect(p50).toBeGreaterThan(0.36)
  expect(p50).toBeLessThan(0.6)
  expect(p80).toBeGreaterThan(0.7)
  expect(p80).toBeLessThan(0.9)
  expect(p95).toBeGreaterThan(0.88)
  expect(off).toBeLessThan(0.22)
})

it('records halve what the stated times are off by', () => {
  expect(forecastCoverage(10, 60, 4).off).toBeLessThan(0.6 * forecastCoverage(0, 60, 4).off)
})
