/** Decodes FLAC (RFC 9639): whole files of 4 to 24 bits. Section numbers below are those of the RFC. */

export interface Flac {
  readonly rate: number
  readonly bits: number
  /** Whole numbers, one array a channel. */
  readonly channels: readonly Int32Array[]
  /** MD5 of the samples as the encoder saw them, in hexadecimal; all zeros when it kept none. */
  readonly md5: string
}

interface Bits {
  read(count: number): number
  signed(count: number): number
  unary(): number
  align(): void
  /** In bytes, after `align`. */
  place(): number
}

function bitsOf(bytes: Uint8Array, from: number): Bits {
  let at = from * 8
  const read = (count: number) => {
    let value = 0
    for (let left = count; left > 0;) {
      const within = at % 8
      const take = Math.min(left, 8 - within)
      value = value * 2 ** take + (((bytes[at >> 3] ?? 0) >> (8 - within - take)) & (2 ** take - 1))
      at += take
      left -= take
    }
    return value
  }
  return {
    read,
    signed(count) {
      const value = read(count)
      return value >= 2 ** (count - 1) ? value - 2 ** count : value
    },
    unary() {
      let zeros = 0
      while (read(1) === 0) {
        zeros += 1
        if (at > bytes.length * 8) throw new Error('is FLAC that is cut short')
      }
      return zeros
    },
    align() {
      at = Math.ceil(at / 8) * 8
    },
    place: () => at / 8
  }
}

/** @throws Error when the file is broken. */
export function readFlac(bytes: Uint8Array): Flac {
  let at = 4
  let info = { rate: 0, channels: 0, bits: 0, length: 0, md5: '' }
  for (let last = false; !last;) {
    const head = bitsOf(bytes, at)
    last = head.read(1) === 1
    const isInfo = head.read(7) === 0
    const length = head.read(24)
    if (isInfo) info = streamInfo(bytes, at + 4)
    at += 4 + length
  }
  const blocks: (readonly Int32Array[])[] = []
  while (at + 2 < bytes.length && bytes[at] === 0xff && ((bytes[at + 1] ?? 0) & 0xfc) === 0xf8) {
    const { samples, end } = readFrame(bytes, at, info.bits)
    blocks.push(samples)
    at = end
  }
  const channels = Array.from({ length: info.channels }, (_, channel) => joined(blocks.map((block) => block[channel])))
  if ((channels[0]?.length ?? 0) < info.length) throw new Error('is FLAC that is cut short or damaged')
  return { rate: info.rate, bits: info.bits, channels, md5: info.md5 }
}

/** 8.2. */
function streamInfo(bytes: Uint8Array, at: number) {
  const bits = bitsOf(bytes, at + 10)
  const rate = bits.read(20)
  const channels = bits.read(3) + 1
  const depth = bits.read(5) + 1
  const length = bits.read(36)
  return { rate, channels, bits: depth, length, md5: Buffer.from(bytes.subarray(at + 18, at + 34)).toString('hex') }
}

function joined(parts: readonly (Int32Array | undefined)[]): Int32Array {
  const whole = new Int32Array(parts.reduce((sum, part) => sum + (part?.length ?? 0), 0))
  let at = 0
  for (const part of parts) {
    if (part) whole.set(part, at)
    at += part?.length ?? 0
  }
  return whole
}

/** 9.1 and 9.2. */
function readFrame(bytes: Uint8Array, start: number, depth: number) {
  const bits = bitsOf(bytes, start)
  bits.read(16)
  const sizeCode = bits.read(4)
  const rateCode = bits.read(4)
  const channelCode = bits.read(4)
  bits.read(4)
  skipCodedNumber(bits)
  const size = blockSize(sizeCode, bits)
  if (rateCode === 12) bits.read(8)
  if (rateCode === 13 || rateCode === 14) bits.read(16)
  bits.read(8)
  const count = channelCode < 8 ? channelCode + 1 : 2
  const sideAt = { 8: 1, 9: 0, 10: 1 }[channelCode]
  const subframes = Array.from({ length: count }, (_, channel) =>
    readSubframe(bits, size, depth + (channel === sideAt ? 1 : 0))
  )
  bits.align()
  bits.read(16)
  return { samples: apart(channelCode, subframes), end: bits.place() }
}

/** 9.1.5: as UTF-8 does it. */
function skipCodedNumber(bits: Bits): void {
  const first = bits.read(8)
  // The ones that it begins with count all its bytes.
  const ones = Math.clz32(~(first << 24))
  for (let byte = 1; byte < ones; byte++) bits.read(8)
}

/** 9.1.1. */
function blockSize(code: number, bits: Bits): number {
  if (code === 1) return 192
  if (code <= 5) return 144 * 2 ** code
  if (code === 6) return bits.read(8) + 1
  if (code === 7) return bits.read(16) + 1
  return 2 ** code
}

/** 4.2: left and difference, difference and right, middle and difference. */
function apart(code: number, [first = new Int32Array(0), second = new Int32Array(0), ...more]: Int32Array[]) {
  if (code === 8) return [first, first.map((left, at) => left - (second[at] ?? 0))]
  if (code === 9) return [second.map((right, at) => right + (first[at] ?? 0)), second]
  if (code === 10) {
    const left = first.map((middle, at) => {
      const side = second[at] ?? 0
      return (2 * middle + (side & 1) + side) / 2
    })
    return [left, left.map((value, at) => value - (second[at] ?? 0))]
  }
  return [first, second, ...more]
}

/** 9.2.5: prediction by fixed polynomials. */
const FIXED = [[], [1], [2, -1], [3, -3, 1], [4, -6, 4, -1]] as const

/** 9.2. */
function readSubframe(bits: Bits, size: number, depth: number): Int32Array {
  bits.read(1)
  const type = bits.read(6)
  const wasted = bits.read(1) === 1 ? bits.unary() + 1 : 0
  const width = depth - wasted
  const out = new Int32Array(size)
  if (type === 0) out.fill(bits.signed(width))
  else if (type === 1) for (let at = 0; at < size; at++) out[at] = bits.signed(width)
  else {
    const order = type >= 32 ? type - 31 : type - 8
    for (let at = 0; at < order; at++) out[at] = bits.signed(width)
    const { weights, shift } = type >= 32 ? linear(bits, order) : { weights: FIXED[order] ?? [], shift: 0 }
    readResidual(bits, out, order)
    for (let at = order; at < size; at++) {
      const sum = weights.reduce((total, weight, back) => total + weight * (out[at - 1 - back] ?? 0), 0)
      out[at] = (out[at] ?? 0) + Math.floor(sum / 2 ** shift)
    }
  }
  return wasted === 0 ? out : out.map((value) => value * 2 ** wasted)
}

/** 9.2.6. */
function linear(bits: Bits, order: number) {
  const precision = bits.read(4) + 1
  const shift = bits.signed(5)
  return { weights: Array.from({ length: order }, () => bits.signed(precision)), shift }
}

/** 9.2.7: coded residual, into the places behind the warm-up samples. */
function readResidual(bits: Bits, out: Int32Array, order: number): void {
  const width = bits.read(2) === 0 ? 4 : 5
  const parts = 2 ** bits.read(4)
  const escape = 2 ** width - 1
  for (let part = 0, at = order; part < parts; part++) {
    const end = ((part + 1) * out.length) / parts
    const parameter = bits.read(width)
    const plain = parameter === escape ? bits.read(5) : 0
    for (; at < end; at++) {
      if (parameter === escape) out[at] = plain === 0 ? 0 : bits.signed(plain)
      else {
        const folded = bits.unary() * 2 ** parameter + bits.read(parameter)
        out[at] = folded % 2 === 0 ? folded / 2 : -(folded + 1) / 2
      }
    }
  }
}
