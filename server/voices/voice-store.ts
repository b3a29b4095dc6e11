/**
 * Practised voices in the data folder, one file each, for people who agreed to it: band powers as `packedTakes` makes
 * them, never sound. They are in no backup: whoever deletes a voice must not find it again after a restore.
 */
import { createHash } from 'node:crypto'
import { mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'

export interface Whose {
  readonly person: string
  readonly language: string
}

export interface VoiceStore {
  /** Replaces what was there. */
  keep(whose: Whose, bytes: Uint8Array): 'kept' | 'too-many' | 'no-room'
  read(whose: Whose): Promise<Uint8Array<ArrayBuffer> | null>
  /** Also when there is none. */
  forget(whose: Whose): void
}

/** Of one shop, in two languages each; more is somebody filling the disk. */
const MOST_VOICES = 500

export function voiceStore(folder: string): VoiceStore {
  /** Names can be anything, and tell nobody who looks into the folder who was here. */
  const pathOf = ({ person, language }: Whose) =>
    join(
      folder,
      `${createHash('sha256')
        .update(JSON.stringify([person, language]))
        .digest('hex')}.voice`
    )
  const voices = () => {
    try {
      return readdirSync(folder).filter((name) => name.endsWith('.voice'))
    } catch {
      return []
    }
  }
  return {
    keep(whose, bytes) {
      const path = pathOf(whose)
      const others = voices().filter((name) => !path.endsWith(name))
      if (others.length >= MOST_VOICES) return 'too-many'
      try {
        mkdirSync(folder, { recursive: true })
        const unfinished = `${path}.part`
        writeFileSync(unfinished, bytes)
        renameSync(unfinished, path)
        return 'kept'
      } catch {
        return 'no-room'
      }
    },
    async read(whose) {
      const bytes = await readFile(pathOf(whose)).catch(() => null)
      return bytes && Uint8Array.from(bytes)
    },
    forget(whose) {
      rmSync(pathOf(whose), { force: true })
    }
  }
}
