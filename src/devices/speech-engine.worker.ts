/** Runs as a worker: says what there is no clip for, with the voice of the clips. Fetches its 21 MB when first needed, and keeps them. */
import { ConsoleStdout, File, OpenFile, PreopenDirectory, WASI } from '@bjorn3/browser_wasi_shim'
import { fliteArguments, SAID_FILE, soundOf } from '../core/talk/clips/flite.ts'
import type { Sound } from '../core/talk/clips/ima-adpcm.ts'
import { shaped } from '../core/talk/clips/shape.ts'
import { CLIP_CACHE } from './clip-cache.ts'

export interface EngineQuestion {
  readonly number: number
  readonly text: string
}

export interface EngineAnswer {
  readonly number: number
  /** Null when it could not be said. */
  readonly sound: Sound | null
}

const ENGINE = '/api/speech/engine'
let loading: Promise<WebAssembly.Module> | null = null

async function engine(): Promise<WebAssembly.Module> {
  const cache = 'caches' in globalThis ? await caches.open(CLIP_CACHE).catch(() => null) : null
  const kept = await cache?.match(ENGINE)
  if (kept) return WebAssembly.compile(await kept.arrayBuffer())
  const response = await fetch(ENGINE, { redirect: 'error' })
  if (response.status !== 200) throw new Error(`The engine was answered with status ${response.status}.`)
  const bytes = await response.arrayBuffer()
  const module = await WebAssembly.compile(bytes)
  // Only what compiled is worth keeping.
  await cache?.put(ENGINE, new Response(bytes)).catch(() => {})
  return module
}

async function say(text: string): Promise<Sound | null> {
  loading ??= engine()
  const module = await loading
  const folder = new PreopenDirectory('/', new Map())
  const quiet = () => ConsoleStdout.lineBuffered(() => {})
  const files = [new OpenFile(new File([])), quiet(), quiet(), folder]
  const wasi = new WASI(fliteArguments(text), [], files, { debug: false })
  const instance = await WebAssembly.instantiate(module, { wasi_snapshot_preview1: wasi.wasiImport })
  if (wasi.start(instance as Parameters<WASI['start']>[0]) !== 0) return null
  const said = folder.dir.contents.get(SAID_FILE)
  const sound = said instanceof File ? soundOf(said.data) : null
  return sound && shaped(sound)
}

addEventListener('message', ({ data: { number, text } }: MessageEvent<EngineQuestion>) => {
  void say(text)
    .catch(() => {
      // Away, or no memory for it: the next text tries again.
      loading = null
      return null
    })
    .then((sound) => postMessage({ number, sound } satisfies EngineAnswer))
})
