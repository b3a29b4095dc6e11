import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { packedTakes, unpackedTakes } from './packed-takes.ts'
import type { Takes } from './phrasebook.ts'
import { BANDS } from './sound.ts'

const powers = fc
  .integer({ min: 1, max: 6 })
  .chain((frames) =>
    fc.array(fc.double({ min: -30, max: 135, noNaN: true }), { minLength: frames * BANDS, maxLength: frames * BANDS })
  )
  .map((levels) => Float32Array.from(levels, (level) => 10 ** (level / 10)))
const takes = fc.array(
  fc.record({
    words: fc.string({ unit: 'grapheme' }),
    takes: fc.array(fc.record({ speech: powers, room: powers }), { maxLength: 3 })
  }),
  { maxLength: 4 }
)

const decibels = (values: Float32Array) => Array.from(values, (value) => 10 * Math.log10(value))

it('gives back what was practised, to a third of a decibel', () => {
  fc.assert(
    fc.property(takes, (practised) => {
      const back = unpackedTakes(packedTakes(practised))
      expect(back?.map(({ words }) => words)).toEqual(practised.map(({ words }) => words))
      const all = (some: readonly Takes[]) =>
        some.flatMap((one) => one.takes.flatMap(({ speech, room }) => [speech, room]))
      const [before, after] = [all(practised).flatMap(decibels), all(back ?? []).flatMap(decibels)]
      expect(after).toHaveLength(before.length)
      expect(before.every((level, at) => Math.abs(level - (after[at] ?? 0)) < 0.34)).toBe(true)
    })
  )
})

describe('anything else is refused', () => {
  const good = packedTakes([
    { words: 'all done', takes: [{ speech: new Float32Array(BANDS), room: new Float32Array(BANDS) }] }
  ])
  test.each([
    ['nothing', new Uint8Array(0)],
    ['a piece of it', good.slice(0, -1)],
    ['more than it', Uint8Array.from([...good, 0])],
    ['a list that is none', packedTakes([]).map((byte, at) => (at === 4 ? 123 : byte))],
    ['a length beyond its end', Uint8Array.from([255, 255, 255, 255, 0])]
  ])('%s', (_, bytes) => {
    expect(unpackedTakes(bytes)).toBeNull()
  })
  it('whatever the bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        const back = unpackedTakes(bytes)
        expect(back === null || Array.isArray(back)).toBe(true)
      })
    )
  })
})
