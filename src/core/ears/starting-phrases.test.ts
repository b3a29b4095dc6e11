import { expect, test } from 'vitest'
import { EMBEDDING_SIZE } from './sound.ts'
import { packedPhrases, startingBook, unpackedPhrases } from './starting-phrases.ts'

const windows = (count: number, phase: number) =>
  Float32Array.from({ length: count * EMBEDDING_SIZE }, (_, at) => 10 * Math.sin(at * 0.3 + phase))

test('phrases come back with their takes, whatever letters they have', () => {
  const phrases = [
    { words: 'all done', frames: 52, takes: [windows(8, 0), windows(9, 1)] },
    { words: 'cuánto falta', frames: 71, takes: [windows(7, 2)] }
  ]
  const back = unpackedPhrases(packedPhrases(phrases))
  expect(back.map(({ words, frames, takes }) => [words, frames, takes.map(({ length }) => length)])).toEqual([
    ['all done', 52, [8, 9].map((count) => count * EMBEDDING_SIZE)],
    ['cuánto falta', 71, [7 * EMBEDDING_SIZE]]
  ])
  const book = startingBook(back, [windows(8, 3), windows(10, 4)])
  expect(book.map(({ words, sketches }) => [words, sketches.length])).toEqual([
    ['all done', 2],
    ['cuánto falta', 1]
  ])
})
