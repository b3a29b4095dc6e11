import fc from 'fast-check'
import { decodeBlock } from 'imaadpcm'
import { expect, it } from 'vitest'
import { BLOCK_SAMPLES, packWav, unpackWav } from './ima-adpcm.ts'

/** Away from the ends, where the other implementation stops at -32767. */
const anyPcm = fc.int16Array({ min: -16_000, max: 16_000, maxLength: 3 * BLOCK_SAMPLES })

it('unpacks each block as another implementation does (imaadpcm)', () => {
  fc.assert(
    fc.property(anyPcm, (pcm) => {
      const bytes = packWav({ rate: 16_000, pcm })
      const blocks = Array.from({ length: Math.ceil(pcm.length / BLOCK_SAMPLES) }, (_, block) =>
        // It gives the first sample of a block twice.
        decodeBlock([...bytes.subarray(60 + block * 512, 60 + (block + 1) * 512)]).slice(1)
      )
      expect([...(unpackWav(bytes)?.pcm ?? [])]).toEqual(blocks.flat().slice(0, pcm.length))
    }),
    { numRuns: 30 }
  )
})

it('keeps speech-like sound 20 dB above its own noise', () => {
  const pcm = Int16Array.from({ length: 16_000 }, (_, index) =>
    Math.round(9000 * Math.sin(index / 9) * Math.sin(index / 700) + 3000 * Math.sin(index / 2.1))
  )
  const back = unpackWav(packWav({ rate: 16_000, pcm }))?.pcm ?? new Int16Array()
  const power = (values: ArrayLike<number>) => Array.from(values).reduce((sum, value) => sum + value * value, 0)
  const noise = power(pcm.map((value, index) => value - (back[index] ?? 0)))
  expect(10 * Math.log10(power(pcm) / noise)).toBeGreaterThan(20)
})

it('keeps rate and length, at half a byte a sample', () => {
  const pcm = new Int16Array(16_000)
  const bytes = packWav({ rate: 22_050, pcm })
  expect(unpackWav(bytes)).toMatchObject({ rate: 22_050, pcm: { length: 16_000 } })
  expect(bytes.length).toBeLessThan(8300)
})

it('takes nothing else for a clip, and nothing cut off', () => {
  const whole = packWav({ rate: 16_000, pcm: new Int16Array(5000) })
  fc.assert(
    fc.property(fc.nat(whole.length - 1), (length) => {
      expect(unpackWav(whole.slice(0, length))).toBe(null)
    })
  )
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 4000 }), (bytes) => {
      expect(unpackWav(bytes)).toBe(null)
    })
  )
})
