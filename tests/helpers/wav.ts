/** WAV files (RIFF WAVE, Microsoft and IBM, 1991). */

export interface WavForm {
  /** Samples a second. */
  readonly rate: number
  readonly channels?: number
  readonly bits?: number
  /** 1: whole numbers; 3: floating point. */
  readonly kind?: 1 | 3
}

export function wavFile(data: Buffer, { rate, channels = 1, bits = 16, kind = 1 }: WavForm): Buffer {
  const frameBytes = (channels * bits) / 8
  const head = Buffer.alloc(44)
  head.write('RIFF', 0)
  head.writeUInt32LE(36 + data.length, 4)
  head.write('WAVEfmt ', 8)
  head.writeUInt32LE(16, 16)
  head.writeUInt16LE(kind, 20)
  head.writeUInt16LE(channels, 22)
  head.writeUInt32LE(rate, 24)
  head.writeUInt32LE(rate * frameBytes, 28)
  head.writeUInt16LE(frameBytes, 32)
  head.writeUInt16LE(bits, 34)
  head.write('data', 36)
  head.writeUInt32LE(data.length, 40)
  return Buffer.concat([head, data])
}

/** Of samples from -1 to 1. */
export function pcm16(samples: Float32Array): Buffer {
  const data = Buffer.alloc(2 * samples.length)
  samples.forEach((value, at) => data.writeInt16LE(Math.round(32_000 * value), 2 * at))
  return data
}
