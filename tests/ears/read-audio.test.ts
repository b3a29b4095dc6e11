import { createHash } from 'node:crypto'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import { wavFile } from '../helpers/wav.ts'
import { readAudio } from './read-audio.ts'
import { readFlac } from './read-flac.ts'

const folder = mkdtempSync(join(tmpdir(), 'ears-'))
afterAll(() => rmSync(folder, { recursive: true }))

const clips = join(import.meta.dirname, 'clips/enrol')
const wave = (at: number) => Math.sin((2 * Math.PI * 440 * at) / 16_000)

function wav(kind: 1 | 3, bits: number, channels: number, write: (data: Buffer, at: number, value: number) => void) {
  const width = bits / 8
  const data = Buffer.alloc(1600 * width * channels)
  for (let at = 0; at < 1600 * channels; at++) write(data, at * width, 0.5 * wave(Math.floor(at / channels)))
  return wavFile(data, { rate: 16_000, channels, bits, kind })
}

describe('reading WAV', () => {
  test.each([
    ['8 bits', wav(1, 8, 1, (data, at, value) => data.writeUInt8(Math.round(value * 127) + 128, at))],
    ['16 bits, two channels', wav(1, 16, 2, (data, at, value) => data.writeInt16LE(Math.round(value * 32_767), at))],
    ['24 bits', wav(1, 24, 1, (data, at, value) => data.writeIntLE(Math.round(value * 8_388_607), at, 3))],
    ['float', wav(3, 32, 1, (data, at, value) => data.writeFloatLE(value, at))]
  ])('%s', async (name, bytes) => {
    const file = join(folder, `${name}.wav`)
    writeFileSync(file, bytes)
    const samples = await readAudio(file)
    expect(samples).toHaveLength(1600)
    samples.forEach((value, at) => expect(Math.abs(value - 0.5 * wave(at))).toBeLessThan(0.01))
  })

  test('something else is refused by name', async () => {
    const file = join(folder, 'words.wav')
    writeFileSync(file, 'only words')
    await expect(readAudio(file)).rejects.toThrow('words.wav is neither WAV nor FLAC')
  })
})

/** The encoder, the reference one by Xiph, wrote the MD5 of what it was given into each file. */
describe('reading FLAC', () => {
  test.each(readdirSync(clips).filter((name) => name.endsWith('.flac')))('%s', (name) => {
    const { channels, md5, bits } = readFlac(readFileSync(join(clips, name)))
    const [only = new Int32Array(0)] = channels
    expect(bits).toBe(16)
    const bytes = Buffer.alloc(only.length * 2)
    only.forEach((value, at) => bytes.writeInt16LE(value, at * 2))
    expect(createHash('md5').update(bytes).digest('hex')).toBe(md5)
  })

  test('two channels', () => {
    const { channels, md5, rate } = readFlac(readFileSync(join(import.meta.dirname, 'clips/two-channels.flac')))
    const [left = new Int32Array(0), right = new Int32Array(0)] = channels
    expect(rate).toBe(44_100)
    const bytes = Buffer.alloc(left.length * 4)
    left.forEach((value, at) => {
      bytes.writeInt16LE(value, at * 4)
      bytes.writeInt16LE(right[at] ?? 0, at * 4 + 2)
    })
    expect(createHash('md5').update(bytes).digest('hex')).toBe(md5)
  })
})
