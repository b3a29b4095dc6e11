/** Rendered clips in the data folder. All of it can be rendered again, so nothing here is ever worth failing for. */
import {
  appendFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  writeFileSync
} from 'node:fs'
import { readFile } from 'node:fs/promises'
import { createHash } from 'node:crypto'
import { join } from 'node:path'
import type { Clip } from './render-clip.ts'

export interface KeptClip {
  /** SHA-256 of its bytes, lower-case hex. */
  readonly hash: string
  readonly bytes: number
  readonly ms: number
}

export interface ClipStore {
  find(spoken: string): KeptClip | null
  /** The error's code when there is no room or no right to write. */
  keep(spoken: string, clip: Clip): KeptClip | string
  /** Null when it is not here, or no longer what was kept. */
  read(hash: string): Promise<Uint8Array<ArrayBuffer> | null>
}

const LIST = 'clips.jsonl'
const HASH = /^[0-9a-f]{64}$/

/** `folder` is for clips alone; those of other recipes are deleted from it. */
export function openClipStore(folder: string, recipe: string): ClipStore | string {
  const mine = join(folder, recipe)
  const list = join(mine, LIST)
  const pathOf = (hash: string) => join(mine, `${hash}.wav`)
  try {
    mkdirSync(mine, { recursive: true })
    for (const other of readdirSync(folder)) if (other !== recipe) rmSync(join(folder, other), { recursive: true })
  } catch (error) {
    return codeOf(error)
  }
  const known = new Map<string, KeptClip>()
  for (const line of linesOf(list)) {
    const entry = entryIn(line)
    if (entry && existsSync(pathOf(entry.hash))) known.set(entry.spoken, entry)
  }

  return {
    find: (spoken) => known.get(spoken) ?? null,
    keep(spoken, { bytes, ms }) {
      const kept = { hash: sha256(bytes), bytes: bytes.length, ms }
      try {
        const unfinished = `${pathOf(kept.hash)}.part`
        writeFileSync(unfinished, bytes)
        renameSync(unfinished, pathOf(kept.hash))
        appendFileSync(list, `${JSON.stringify({ spoken, ...kept })}\n`)
      } catch (error) {
        return codeOf(error)
      }
      known.set(spoken, kept)
      return kept
    },
    async read(hash) {
      if (!HASH.test(hash)) return null
      const bytes = await readFile(pathOf(hash)).catch(() => null)
      if (bytes === null) return null
      if (sha256(bytes) === hash) return Uint8Array.from(bytes)
      // Rendered anew at the next chance.
      for (const [spoken, clip] of known) if (clip.hash === hash) known.delete(spoken)
      rmSync(pathOf(hash), { force: true })
      return null
    }
  }
}

function linesOf(file: string): readonly string[] {
  return existsSync(file) ? readFileSync(file, 'utf8').split('\n') : []
}

/** A power cut can leave half a line. */
function entryIn(line: string): (KeptClip & { readonly spoken: string }) | null {
  try {
    const entry = JSON.parse(line) as KeptClip & { readonly spoken: string }
    return typeof entry.spoken === 'string' && HASH.test(entry.hash) ? entry : null
  } catch {
    return null
  }
}

function sha256(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex')
}

function codeOf(error: unknown): string {
  return (error as NodeJS.ErrnoException).code ?? 'unknown reason'
}
