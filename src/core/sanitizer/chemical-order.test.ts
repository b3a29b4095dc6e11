import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { chemicalClashes, gasOf, type ChemicalEvent, type ChemicalFamily } from './chemical-order.ts'

const use = (family: ChemicalFamily, at: string): ChemicalEvent<string> => ({ kind: 'use', family, at })
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

  it('clash as often as pairs of them stand between two rinses, and read backwards too', () => {
    const event = fc.oneof(
      fc.constant(rinse),
      fc.constantFrom('hypochlorite', 'acid', 'ammonia', 'other').map((family) => use(family, family))
    )
    fc.assert(
      fc.property(fc.array(event, { maxLength: 12 }), (events) => {
        const between = events
          .map((one) => (one.kind === 'use' ? one.family[0] : '|'))
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
