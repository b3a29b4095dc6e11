import { describe, expect, it } from 'vitest'
import { newVariable, noMoments, orLater, put, take } from './moments.ts'
import { normalAt } from './normal.ts'

/** Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.1; from memory. */
it.each([
  [0, 0.5, 0.3989423],
  [1, 0.8413447, 0.2419707],
  [1.96, 0.9750021, 0.0584409],
  [-1, 0.1586553, 0.2419707],
  [3, 0.9986501, 0.0044318]
])('at %d standard deviations %d lies below, with density %d', (z, share, height) => {
  const { below, above, density } = normalAt(z)
  expect(below).toBeCloseTo(share, 6)
  expect(above).toBeCloseTo(1 - share, 6)
  expect(density).toBeCloseTo(height, 6)
})

/** Two times of mean 0 and variance 1, and the later of them. */
function laterOfTwo(correlation: number) {
  const moments = noMoments(2)
  moments.covariances.forEach((row, place) => row.set(place === 0 ? [1, correlation] : [correlation, 1]))
  const variable = newVariable(2)
  take(variable, moments, 0, 0)
  orLater(variable, moments, 1, 0)
  return { variable, moments }
}

/** Mean sqrt((1 - r) / pi), variance 1 - (1 - r) / pi (Clark 1961; Nadarajah and Kotz 2008; from memory). */
describe('the later of two normal times', () => {
  it.each([0, 0.5, -0.5, 0.9])('with correlation %d', (r) => {
    const { variable } = laterOfTwo(r)
    expect(variable.mean).toBeCloseTo(Math.sqrt((1 - r) / Math.PI), 6)
    expect(variable.variance).toBeCloseTo(1 - (1 - r) / Math.PI, 6)
  })

  it('varies with each of them half and half, and so in all places that it is put in', () => {
    const { variable, moments } = laterOfTwo(0)
    expect([...variable.withOthers]).toEqual([expect.closeTo(0.5, 6), expect.closeTo(0.5, 6)])
    put(variable, moments, [0])
    expect(moments.means[0]).toBe(variable.mean)
    expect(moments.covariances.map((row) => [...row])).toEqual([
      [variable.variance, expect.closeTo(0.5, 6)],
      [expect.closeTo(0.5, 6), 1]
    ])
  })

  it('is one of them where it is surely that', () => {
    const { variable, moments } = laterOfTwo(0)
    take(variable, moments, 0, 100)
    orLater(variable, moments, 1, 0)
    expect([variable.mean, variable.variance]).toEqual([100, 1])
    orLater(variable, moments, 1, 300)
    expect([variable.mean, variable.variance]).toEqual([300, 1])
  })

  it('of a time and itself is itself', () => {
    const { variable, moments } = laterOfTwo(1)
    expect([variable.mean, variable.variance]).toEqual([0, 1])
    orLater(variable, moments, 1, 5)
    expect([variable.mean, variable.variance]).toEqual([5, 1])
  })
})
