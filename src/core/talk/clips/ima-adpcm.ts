/**
 * Speech at four bits a sample, packed and unpacked by ourselves, so that every browser plays it: IMA ADPCM (Interactive
 * Multimedia Association, "Recommended Practices for Enhancing Digital Audio Compatibility", 1992) in blocks as WAV has them
 * (Microsoft's format tag 0x11). Tables and block layout are from memory and held to another implementation by the tests.
 */

const INDEX_STEPS = [-1, -1, -1, -1, 2, 4, 6, 8]
const STEP_SIZES = [
  ...[7, 8, 9, 10, 11, 12, 13, 14, 16, 17, 19, 21, 23, 25, 28, 31, 34, 37, 41, 45, 50, 55, 60, 66, 73, 80, 88, 97],
  ...[107, 118, 130, 143, 157, 173, 190, 209, 230, 253, 279, 307, 337, 371, 408, 449, 494, 544, 598, 658, 724, 796],
  ...[876, 963, 1060, 1166, 1282, 1411, 1552, 1707, 1878, 2066, 2272, 2499, 2749, 3024, 3327, 3660, 4026, 4428, 4871],
  ...[5358, 5894, 6484, 7132, 7845, 8630, 9493, 10442, 11487, 12635, 13899, 15289, 16818, 18500, 20350, 22385, 24623],
  ...[27086, 29794, 32767]
]
const BLOCK_BYTES = 512
const BLOCK_HEAD_BYTES = 4
export const BLOCK_SAMPLES = (BLOCK_BYTES - BLOCK_HEAD_BYTES) * 2 + 1

const HEAD_BYTES = 60
const IMA_ADPCM = 0x11

interface State {
  predicted: number
  index: number
}

export interface Sound {
  /** Samples a second. */
  readonly rate: number
  /** One channel, 16 bits. */
  readonly pcm: Int16Array
}

/** A whole WAV file. */
export function packWav({ rate, pcm }: Sound): Uint8Array<ArrayBuffer> {
  const blocks = Math.ceil(pcm.length / BLOCK_SAMPLES)
  const bytes = new Uint8Array(HEAD_BYTES + blocks * BLOCK_BYTES)
  const view = new DataView(bytes.buffer)
  writeHead(bytes, view, { rate, samples: pcm.length, blocks })
  const state: State = { predicted: 0, index: 0 }
  for (let block = 0; block < blocks; block += 1) {
    const at = HEAD_BYTES + block * BLOCK_BYTES
    const first = block * BLOCK_SAMPLES
    const sample = (place: number) => pcm[first + place] ?? 0
    state.predicted = sample(0)
    view.setInt16(at, state.predicted, true)
    view.setUint8(at + 2, state.index)
    for (let place = 1; place < BLOCK_SAMPLES; place += 2) {
      const low = encode(sample(place), state)
      bytes[at + BLOCK_HEAD_BYTES + (place >> 1)] = low | (encode(sample(place + 1), state) << 4)
    }
  }
  return bytes
}

/** Null when it is no such file, or not whole. */
export function unpackWav(bytes: Uint8Array): Sound | null {
  if (bytes.length < HEAD_BYTES) return null
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const isOurs = text(bytes, 0) === 'RIFF' && text(bytes, 8) === 'WAVE' && view.getUint16(20, true) === IMA_ADPCM
  if (!isOurs || view.getUint16(32, true) !== BLOCK_BYTES || text(bytes, 52) !== 'data') return null
  const samples = view.getUint32(48, true)
  const blocks = Math.ceil(samples / BLOCK_SAMPLES)
  if (bytes.length < HEAD_BYTES + blocks * BLOCK_BYTES) return null
  const pcm = new Int16Array(blocks * BLOCK_SAMPLES)
  for (let block = 0; block < blocks; block += 1) {
    const at = HEAD_BYTES + block * BLOCK_BYTES
    const state: State = { predicted: view.getInt16(at, true), index: Math.min(88, view.getUint8(at + 2)) }
    const first = block * BLOCK_SAMPLES
    pcm[first] = state.predicted
    for (let place = 1; place < BLOCK_SAMPLES; place += 2) {
      const pair = bytes[at + BLOCK_HEAD_BYTES + (place >> 1)] ?? 0
      pcm[first + place] = decode(pair & 15, state)
      pcm[first + place + 1] = decode(pair >> 4, state)
    }
  }
  return { rate: view.getUint32(24, true), pcm: pcm.subarray(0, samples) }
}

function encode(sample: number, state: State): number {
  let step = STEP_SIZES[state.index] ?? 0
  let difference = sample - state.predicted
  let nibble = difference < 0 ? 8 : 0
  difference = Math.abs(difference)
  for (const bit of [4, 2, 1]) {
    if (difference >= step) {
      nibble |= bit
      difference -= step
    }
    step >>= 1
  }
  decode(nibble, state)
  return nibble
}

function decode(nibble: number, state: State): number {
  const step = STEP_SIZES[state.index] ?? 0
  const change = (step >> 3) + (nibble & 1 ? step >> 2 : 0) + (nibble & 2 ? step >> 1 : 0) + (nibble & 4 ? step : 0)
  state.predicted = Math.max(-32768, Math.min(32767, state.predicted + (nibble & 8 ? -change : change)))
  state.index = Math.max(0, Math.min(88, state.index + (INDEX_STEPS[nibble & 7] ?? 0)))
  return state.predicted
}

function writeHead(
  bytes: Uint8Array,
  view: DataView,
  { rate, samples, blocks }: { readonly rate: number; readonly samples: number; readonly blocks: number }
): void {
  const put = (at: number, name: string) =>
    bytes.set(
      Array.from(name, (letter) => letter.charCodeAt(0)),
      at
    )
  put(0, 'RIFF')
  view.setUint32(4, HEAD_BYTES - 8 + blocks * BLOCK_BYTES, true)
  put(8, 'WAVEfmt ')
  view.setUint32(16, 20, true)
  view.setUint16(20, IMA_ADPCM, true)
  view.setUint16(22, 1, true)
  view.setUint32(24, rate, true)
  view.setUint32(28, Math.ceil((rate * BLOCK_BYTES) / BLOCK_SAMPLES), true)
  view.setUint16(32, BLOCK_BYTES, true)
  view.setUint16(34, 4, true)
  view.setUint16(36, 2, true)
  view.setUint16(38, BLOCK_SAMPLES, true)
  put(40, 'fact')
  view.setUint32(44, 4, true)
  view.setUint32(48, samples, true)
  put(52, 'data')
  view.setUint32(56, blocks * BLOCK_BYTES, true)
}

function text(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4))
}
