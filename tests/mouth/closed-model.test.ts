import { expect, test } from 'vitest'
import { closedModel } from './closed-model.ts'

const SENTENCES = ['close the valve', 'open the valve', 'close the door', 'wipe it'].map((text) => text.split(' '))

/** Probabilities of a section, by gram. */
function section(model: string, order: number): ReadonlyMap<string, { probability: number; backOff: number }> {
  const lines = model.split(`\\${order}-grams:\n`)[1]?.split('\n\n')[0]?.split('\n') ?? []
  return new Map(
    lines.map((line) => {
      const parts = line.split(' ')
      const backOff = order < 3 ? 10 ** Number(parts[order + 1]) : 1
      return [parts.slice(1, order + 1).join(' '), { probability: 10 ** Number(parts[0]), backOff }]
    })
  )
}

test('what may follow two words adds up to one, with what is left for words that never did', () => {
  const model = closedModel(SENTENCES)
  const [one, two] = [section(model, 1), section(model, 2)]
  for (const [before, { backOff }] of one) {
    if (before === '</s>') continue
    const all = [...one.keys()].filter((word) => word !== '<s>')
    const total = all.reduce(
      (sum, word) => sum + (two.get(`${before} ${word}`)?.probability ?? backOff * (one.get(word)?.probability ?? 0)),
      0
    )
    expect(total, before).toBeCloseTo(1, 2)
  }
})

test('counts what it lists', () => {
  const model = closedModel(SENTENCES)
  for (const order of [1, 2, 3]) expect(model).toContain(`ngram ${order}=${section(model, order).size}\n`)
})
