/** Reads WAV and FLAC of any sample rate and channel count as mono samples at 16 kHz. */
import { readFile } from 'node:fs/promises'
import { readFlac } from './read-flac.ts'
import { resampled } from '../../src/core/ears/resample.ts'
import { SAMPLE_RATE } from '../../src/core/ears/sound.ts'

interface Recording {
  readonly channels: readonly Float32Array[]
  readonly rate: number
}

/** @throws Error naming the file when it is no WAV or FLAC, of an encoding not known here, cut short or empty. */
export async function readAudio(path: string): Promise<Float32Array> {
  const bytes = await readFile(path).catch(() => {
    throw new Error(`There is no file ${path}.`)
  })
  try {
    const { channels, rate } = recordingIn(bytes)
    if (!(rate > 0)) throw new Error('has no sample rate')
    if ((channels[0]?.length ?? 0) === 0) throw new Error('has no sound in it')
    return resampled(mixed(channels), rate, SAMPLE_RATE)
  } catch (failure) {
    throw new Error(`${path} ${failure instanceof Error ? failure.message : String(failure)}.`, { cause: failure })
  }
}

function recordingIn(bytes: Buffer): Recording {
  const magic = bytes.toString('latin1', 0, 4)
  if (magic === 'RIFF') return readWav(bytes)
  if (magic === 'fLaC') return fromFlac(bytes)
  throw new Error('is neither WAV nor FLAC')
}

function mixed(channels: readonly Float32Array[]): Float32Array {
  const [first = new Float32Array(0), ...others] = channels
  if (others.length === 0) return first
  return first.map((value, at) => others.reduce((sum, other) => sum + (other[at] ?? 0), value) / channels.length)
}

function fromFlac(bytes: Uint8Array): Recording {
  const { channels, rate, bits } = readFlac(bytes)
  return { channels: channels.map((channel) => Float32Array.from(channel, (value) => value / 2 ** (bits - 1))), rate }
}

const PCM = 1
const FLOAT = 3
const EXTENSIBLE = 0xfffe

/** RIFF WAVE (Microsoft and IBM, 1991): PCM of 8 to 32 bits, float of 32 or 64. */
function readWav(bytes: Buffer): Recording {
  let format = { kind: 0, channels: 1, rate: SAMPLE_RATE, bits: 16 }
  for (let at = 12; at + 8 <= bytes.length;) {
    const name = bytes.toString('latin1', at, at + 4)
    const start = at + 8
    // A recorder that was cut off leaves a length that is too long.
    const length = Math.min(bytes.readUInt32LE(at + 4), bytes.length - start)
    if (name === 'fmt ') {
      const kind = bytes.readUInt16LE(start)
      format = {
        kind: kind === EXTENSIBLE ? bytes.readUInt16LE(start + 24) : kind,
        channels: bytes.readUInt16LE(start + 2),
        rate: bytes.readUInt32LE(start + 4),
        bits: bytes.readUInt16LE(start + 14)
      }
    }
    if (name === 'data') {
      const read = sampleReader(bytes, format.kind, format.bits)
      if (!read) throw new Error(`is WAV of an encoding not known here (${format.kind}, ${format.bits} bits)`)
      const width = format.bits / 8
      const count = Math.floor(length / width / format.channels)
      const channels = Array.from({ length: format.channels }, (_, channel) =>
        Float32Array.from({ length: count }, (_unused, k) => read(start + (k * format.channels + channel) * width))
      )
      return { channels, rate: format.rate }
    }
    at = start + length + (length % 2)
  }
  throw new Error('is WAV without sound in it')
}

function sampleReader(bytes: Buffer, kind: number, bits: number): ((at: number) => number) | null {
  if (kind === FLOAT && bits === 32) return (at) => bytes.readFloatLE(at)
  if (kind === FLOAT && bits === 64) return (at) => bytes.readDoubleLE(at)
  if (kind !== PCM) return null
  if (bits === 8) return (at) => (bytes.readUInt8(at) - 128) / 128
  if (bits === 16 || bits === 24 || bits === 32) return (at) => bytes.readIntLE(at, bits / 8) / 2 ** (bits - 1)
  return null
}
