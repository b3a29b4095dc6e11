/** Puts what the embedded ears need beside the page, named by content, and tells the page what to expect. */
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { brotliCompressSync } from 'node:zlib'
import type { Plugin } from 'vite'
import type { EarFile } from './src/devices/ears-embedded/ear-files.ts'
import { readModelFiles } from './vite.ear-models.ts'

const VIRTUAL = 'virtual:ear-files'

interface Built extends EarFile {
  readonly bytes: Uint8Array
}

/** `own` is the folder of what this project made itself. */
function builtFiles(own: string): readonly Built[] {
  const models = readModelFiles()
  const sources = [
    ['embedding', 'onnx', models.embedding],
    ['voice', 'onnx', models.voice],
    ['runtime', 'wasm', models.runtime],
    ['otherSpeech', 'bin', readFileSync(join(own, 'other-speech.bin'))],
    ['startingPhrases', 'bin', readFileSync(join(own, 'starting-phrases.bin'))]
  ] as const
  return sources.map(([name, ending, bytes]) => {
    const sha256 = createHash('sha256').update(bytes).digest('hex')
    return { name, path: `/ears/${name}-${sha256.slice(0, 8)}.${ending}`, sha256, bytes }
  })
}

/** The densest compression of the runtime takes most of a minute: done once for each content. */
function compressed({ sha256, bytes }: Built, cache: string): Uint8Array {
  const file = join(cache, `${sha256}.br`)
  if (existsSync(file)) return readFileSync(file)
  const small = brotliCompressSync(bytes)
  mkdirSync(cache, { recursive: true })
  writeFileSync(file, small)
  return small
}

export function earFilesOfPage(own: string, cache: string): Plugin {
  let files: readonly Built[] | null = null
  const built = () => (files ??= builtFiles(own))
  return {
    name: 'ear-files',
    resolveId: (id) => (id === VIRTUAL ? `\0${VIRTUAL}` : null),
    load(id) {
      if (id !== `\0${VIRTUAL}`) return null
      const list = built().map(({ name, path, sha256 }): EarFile => ({ name, path, sha256 }))
      return `export const EAR_FILES = ${JSON.stringify(list)}`
    },
    generateBundle(_options, bundle) {
      // The runtime is fetched by its hash as a file of the ears; the copy that its package asks for is never used.
      for (const name of Object.keys(bundle)) if (/ort-wasm.*\.wasm$/.test(name)) delete bundle[name]
      if (this.environment.name !== 'client') return
      for (const file of built()) {
        const fileName = file.path.slice(1)
        this.emitFile({ type: 'asset', fileName, source: file.bytes })
        this.emitFile({ type: 'asset', fileName: `${fileName}.br`, source: compressed(file, cache) })
      }
    }
  }
}
