import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { chemicalClashes, gasOf, type ChemicalEvent, type ChemicalFamily } from './chemical-order.ts'

const use = (family: ChemicalFamily, at: string): ChemicalEvent<string> => ({ kind: 'use', families: [family], at })
const rinse: ChemicalEvent<string> = { kind: 'full-rinse' }

// Washington State Department of Health, as restated by secondary pages: acid gives chlorine, ammonia chloramines.
describe('two chemicals', () => {
  test.each([
    ['hypochlorite', 'acid', 'chlorine'],
    ['acid', 'hypochlorite', 'chlorine'],
    ['hypochlorite', 'ammonia', 'chloramine'],
    ['ammonia', 'hypochlorite', 'chloramine'],
    ['hypochlorite', 'hypochlorite', null],
    ['hypochlorite', 'other', null],
    ['acid', 'ammonia', null],
    ['acid', 'other', null]
  ] as const)('%s and %s: %s', (one, other, gas) => {
    expect(gasOf(one, other)).toBe(gas)
  })
})

describe('chemicals in order', () => {
  it('clash where a delimer is followed by sanitizer', () => {
    expect(chemicalClashes([use('acid', 'delime'), use('hypochlorite', 'sanitize')])).toEqual([
      { gas: 'chlorine', first: 'delime', second: 'sanitize' }
    ])
  })

  it('do not clash across a full rinse', () => {
    expect(chemicalClashes([use('acid', 'delime'), rinse, use('hypochlorite', 'sanitize'), rinse])).toEqual([])
  })

  it('still clash across a wash, which is no rinse', () => {
    const events = [use('hypochlorite', 'sanitize'), use('other', 'wash'), use('acid', 'delime')]
    expect(chemicalClashes(events)).toEqual([{ gas: 'chlorine', first: 'sanitize', second: 'delime' }])
  })

  it('are all named', () => {
    const events = [use('acid', 'a'), use('ammonia', 'b'), use('hypochlorite', 'c'), use('acid', 'd')]
    expect(chemicalClashes(events).map(({ first, second }) => `${first}-${second}`)).toEqual(['a-c', 'b-c', 'c-d'])
  })

  it('clash within one step, too', () => {
    const both: ChemicalEvent<string> = { kind: 'use', families: ['acid', 'hypochlorite'], at: 'pour' }
    expect(chemicalClashes([both])).toEqual([{ gas: 'chlorine', first: 'pour', second: 'pour' }])
  })

  it('clash where a repeat brings the first one after the second', () => {
    const events = [use('acid', 'delime'), rinse, use('hypochlorite', 'sanitize'), { kind: 'nothing' } as const]
    expect(chemicalClashes(events, [{ from: 3, to: 2 }])).toEqual([])
    expect(chemicalClashes(events, [{ from: 3, to: 1 }])).toEqual([])
    expect(chemicalClashes(events, [{ from: 3, to: 0 }])).toEqual([
      { gas: 'chlorine', first: 'sanitize', second: 'delime' }
    ])
  })

  it('clash with repeats as they do when the rounds are written out', () => {
    const event = fc.oneof(
      fc.constant(rinse),
      fc.constant({ kind: 'nothing' } as const),
      fc.constantFrom('hypochlorite', 'acid', 'ammonia').map((family) => use(family, 'somewhere'))
    )
    const round = fc.tuple(fc.array(event, { minLength: 1, maxLength: 8 }), fc.nat(), fc.nat())
    fc.assert(
      fc.property(round, ([events, one, other]) => {
        const placed = events.map((each, index) => (each.kind === 'use' ? { ...each, at: `${index}` } : each))
        const [to, from] = [one % placed.length, other % placed.length].toSorted((a, b) => a - b) as [number, number]
        const again = placed.slice(to, from + 1)
        const writtenOut = [...placed.slice(0, from + 1), ...again, ...again, ...placed.slice(from + 1)]
        const pairs = (clashes: readonly { first: string; second: string }[]) =>
          new Set(clashes.map(({ first, second }) => `${first} ${second}`))
        expect(pairs(chemicalClashes(placed, [{ from, to }]))).toEqual(pairs(chemicalClashes(writtenOut)))
      })
    )
  })

  it('clash as often as pairs of them stand between two rinses, and read backwards too', () => {
    const event = fc.oneof(
      fc.constant(rinse),
      fc.constantFrom('hypochlorite', 'acid', 'ammonia', 'other').map((family) => use(family, family))
    )
    fc.assert(
      fc.property(fc.array(event, { maxLength: 12 }), (events) => {
        const between = events
          .map((one) => (one.kind === 'use' ? one.families[0]?.slice(0, 1) : '|'))
          .join('')
          .split('|')
        // hypochlorite with acid or ammonia, both of which begin with an a.
        const pairs = between.map((run) => (run.match(/h/g) ?? []).length * (run.match(/a/g) ?? []).length)
        expect(chemicalClashes(events)).toHaveLength(pairs.reduce((sum, count) => sum + count, 0))
        expect(chemicalClashes(events.toReversed())).toHaveLength(chemicalClashes(events).length)
      })
    )
    expect.hasAssertions()
  })
})
