import { describe, expect, test } from 'vitest'
import { SEGMENTER, segmenter, type Segment } from './segmenter.ts'

/** Frames as letters: `S` voice that stands out, `v` voice that does not, `k` a clatter that is no voice, `.` nothing. */
function segmentsIn(frames: string): readonly Segment[] {
  const find = segmenter()
  return Array.from(frames).flatMap((frame) => {
    const hearing = find.push('Sv'.includes(frame) ? 0.9 : 0, 'Sk'.includes(frame) ? 10 : 0)
    return hearing.kind === 'ended' ? [hearing.segment] : []
  })
}

const quiet = '.'.repeat(SEGMENTER.hang + 5)

describe('segmenter', () => {
  test('finds where an utterance begins and ends', () => {
    expect(segmentsIn(`....${'S'.repeat(40)}${quiet}`)).toEqual([{ start: 4, end: 44 }])
  })

  test('a short stop inside an utterance does not cut it', () => {
    expect(segmentsIn(`${'S'.repeat(20)}${'.'.repeat(10)}${'S'.repeat(20)}${quiet}`)).toEqual([{ start: 0, end: 50 }])
  })

  test('two utterances with a pause between are two', () => {
    expect(segmentsIn(`${'S'.repeat(20)}${quiet}${'S'.repeat(20)}${quiet}`)).toHaveLength(2)
  })

  test('a voice in the hum of the room, or a blow that is no voice, is nothing', () => {
    expect(segmentsIn(`${'v'.repeat(60)}${quiet}${'k'.repeat(60)}${quiet}`)).toEqual([])
  })

  test('what stands out just before the voice was noticed belongs to the utterance', () => {
    expect(segmentsIn(`..........${'k'.repeat(15)}${'S'.repeat(20)}${quiet}`)).toEqual([{ start: 10, end: 45 }])
  })

  test('a click is no utterance', () => {
    expect(segmentsIn(`${'S'.repeat(SEGMENTER.shortest - 1)}${quiet}`)).toEqual([])
  })

  test('tells how long it has been quiet while the utterance may go on', () => {
    const find = segmenter()
    for (let frame = 0; frame < 20; frame++) find.push(0.9, 10)
    for (let frame = 1; frame < 12; frame++) find.push(0, 0)
    expect(find.push(0, 0)).toEqual({ kind: 'going-on', segment: { start: 0, end: 20 }, quiet: 12 })
  })
})

test('a sure voice in few bands keeps an utterance going by its power', () => {
  const segments = segmenter()
  for (let at = 0; at < 50; at++) segments.push(0, 0)
  for (let at = 0; at < 20; at++) segments.push(0.9, 6, 30)
  for (let at = 0; at < 30; at++) segments.push(0.9, 0.5, 20)
  const heard = segments.push(0, 0)
  expect(heard).toMatchObject({ kind: 'going-on', segment: { end: 100 } })
})
