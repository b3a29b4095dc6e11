/** Nothing taken off is lost, nothing is left off, and grease goes only where it belongs. */
import { describe, expect, it } from 'vitest'
import { FREEZER, shipped, stepsOf } from './shipped-files.ts'

const closing = shipped('twin-freezer-closing')
const opening = shipped('twin-freezer-opening')

describe.each(FREEZER)('$name', ({ procedure }) => {
  it('counts every part of the machine exactly once', () => {
    const counted = stepsOf(procedure).flatMap(({ check }) => (check?.kind === 'count' ? check.parts : []))
    expect([...counted].toSorted()).toEqual(procedure.parts.map(({ id }) => id).toSorted())
  })

  it('counts in lots that a tired person can count', () => {
    const lots = stepsOf(procedure).flatMap(({ check, on }) => {
      if (check?.kind !== 'count') return []
      const times = on.kind === 'sides' ? 1 : procedure.sides.length
      const sizes = procedure.parts
        .filter(({ id }) => check.parts.includes(id))
        .map(({ per, count }) => count * (per === 'side' ? times : 1))
      return [sizes.reduce((sum, size) => sum + size, 0)]
    })
    expect(lots.length).toBeGreaterThanOrEqual(5)
    expect(Math.max(...lots)).toBeLessThanOrEqual(16)
  })
})

describe('the two shipped procedures', () => {
  it('are about one machine', () => {
    expect(opening.parts).toEqual(closing.parts)
    expect(opening.sides).toEqual(closing.sides)
    expect(opening.machine).toEqual(closing.machine)
  })

  it('count parts off before they are washed and on before the side is used', () => {
    const order = stepsOf(closing).map(({ id }) => id)
    expect(order.indexOf('pump-ring-count')).toBeLessThan(order.indexOf('pump-soak'))
    expect(order.indexOf('door-ring-count')).toBeLessThan(order.indexOf('door-soak'))
    expect(order.indexOf('cylinder-count')).toBeLessThan(order.indexOf('parts-brush'))
    const build = stepsOf(opening).map(({ id }) => id)
    expect(build.indexOf('cylinder-count')).toBeLessThan(build.indexOf('door-on'))
    expect(build.indexOf('pump-count')).toBeLessThan(build.indexOf('hopper-fill'))
  })

  it('wet, empty and prime the spout that the sides share', () => {
    const shared = stepsOf(opening).filter(({ say }) => say['en']?.includes('middle spout'))
    expect(shared.map(({ on, say }) => `${on.kind}: ${say['en']}`)).toEqual([
      'machine: Draw a little sanitizer through the middle spout.',
      'machine: Draw a little sanitizer through the middle spout.',
      'machine: Open the middle spout until it drips dry.',
      'machine: Draw mix through the middle spout into a cup.'
    ])
  })
})

describe('grease in the opening', () => {
  // Where grease goes and where it never goes: common practice, no source. 21 CFR 178.3570: no more than needed.
  const greased = stepsOf(opening)
    .map(({ say }) => say['en'] ?? '')
    .filter((words) => words.startsWith('Grease'))
  const places: Readonly<Record<string, RegExp>> = {
    'drive-shaft': /drive shaft and its groove/,
    'shaft-seal': /shaft seal|flat of the seal/,
    'feed-tube-o-ring': /O-rings on .*feed tubes/,
    'pump-shaft-o-ring': /O-rings on pump shafts/,
    'prime-plug-o-ring': /O-rings on .*plugs/,
    'draw-valve-o-ring': /O-rings on valves/
  }

  it('reaches each part that asks for it', () => {
    const asking = opening.parts.filter(({ care }) => care === 'grease').map(({ id }) => id)
    expect(Object.keys(places).toSorted()).toEqual(asking.toSorted())
    for (const id of asking)
      expect(
        greased.some((words) => places[id]?.test(words)),
        id
      ).toBe(true)
    expect(greased.some((words) => words.includes('spouts'))).toBe(true)
  })

  it('stays off every part that must be dry', () => {
    expect(
      opening.parts
        .filter(({ care }) => care === 'dry')
        .map(({ id }) => id)
        .toSorted()
    ).toEqual(['door-gasket', 'front-bearing', 'pump-shaft', 'scraper-blade'])
    expect(greased.filter((words) => /gasket|front bearing|blade|hex|pistons|caps/.test(words))).toEqual([])
    const dryFitted = stepsOf(opening)
      .map(({ say }) => say['en'] ?? '')
      .filter((words) => /\bdry (blades|gaskets|front bearings)/.test(words))
    expect(dryFitted).toHaveLength(3)
  })
})
