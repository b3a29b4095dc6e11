/**
 * Practised voices in the data folder, one file each, for people who agreed to it: band powers as `packedTakes` makes
 * them, never sound. Each change of a voice has a higher revision than the one before, and so has its being forgotten,
 * which leaves an empty file: a server that was set back to an older backup can tell that a device knows better.
 */
import { createHash } from 'node:crypto'
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'

export interface Whose {
  readonly person: string
  readonly language: string
}

export type VoiceFound =
  | { readonly kind: 'voice'; readonly revision: number; readonly bytes: Uint8Array<ArrayBuffer> }
  | { readonly kind: 'forgotten'; readonly revision: number }

export type VoiceChanged = { readonly kind: 'done'; readonly revision: number } | { readonly kind: 'no-room' }

/** `known`: the highest revision of this voice that the device has heard of; 0 for none. */
export interface VoiceStore {
  /** Replaces what was there. */
  keep(whose: Whose, bytes: Uint8Array, known: number): VoiceChanged | { readonly kind: 'too-many' }
  read(whose: Whose): VoiceFound | null
  /** Also when there is none. */
  forget(whose: Whose, known: number): VoiceChanged
}

/** In the data folder. */
export const VOICES_FOLDER = 'voices'
/** Of one shop, in two languages each; more is somebody filling the disk. */
const MOST_VOICES = 500
const MOST_FORGOTTEN = 5000

interface VoiceFile {
  readonly name: string
  readonly of: string
  readonly revision: number
  readonly kind: VoiceFound['kind']
}

export function voiceStore(folder: string): VoiceStore {
  const newestOf = (whose: Whose) =>
    voiceFiles(folder)
      .filter(({ of }) => of === keyOf(whose))
      .reduce<VoiceFile | null>((best, file) => (best && best.revision >= file.revision ? best : file), null)

  function change(whose: Whose, kind: VoiceFound['kind'], bytes: Uint8Array, known: number): VoiceChanged {
    const revision = Math.max(known, newestOf(whose)?.revision ?? 0) + 1
    const path = join(folder, `${keyOf(whose)}.${revision}.${kind}`)
    try {
      mkdirSync(folder, { recursive: true })
      writeFileSync(`${path}.part`, bytes)
      renameSync(`${path}.part`, path)
    } catch {
      return { kind: 'no-room' }
    }
    dropOvertaken(folder)
    return { kind: 'done', revision }
  }

  dropOvertaken(folder)
  return {
    keep(whose, bytes, known) {
      const others = voiceFiles(folder).filter(({ kind, of }) => kind === 'voice' && of !== keyOf(whose))
      return others.length >= MOST_VOICES ? { kind: 'too-many' } : change(whose, 'voice', bytes, known)
    },
    read(whose) {
      const newest = newestOf(whose)
      if (newest === null) return null
      const { revision, kind, name } = newest
      try {
        return kind === 'forgotten'
          ? { kind, revision }
          : { kind, revision, bytes: Uint8Array.from(readFileSync(join(folder, name))) }
      } catch {
        return null
      }
    },
    forget(whose, known) {
      const newest = newestOf(whose)
      if (newest?.kind !== 'voice') {
        // Where nobody knows of a voice there is nothing to remember.
        const nothingNew = known <= (newest?.revision ?? 0)
        const isFull = voiceFiles(folder).filter(({ kind }) => kind === 'forgotten').length >= MOST_FORGOTTEN
        if (nothingNew || isFull) return { kind: 'done', revision: newest?.revision ?? known }
      }
      const changed = change(whose, 'forgotten', new Uint8Array(), known)
      // Whatever the disk has room for, the voice itself goes.
      if (changed.kind === 'no-room' && newest) rmSync(join(folder, newest.name), { force: true })
      return changed
    }
  }
}

/** Names can be anything, and tell nobody who looks into the folder who was here. */
function keyOf({ person, language }: Whose): string {
  return createHash('sha256')
    .update(JSON.stringify([person, language]))
    .digest('hex')
}

/** Those of before had no revision in their names. */
const NAME = /^([0-9a-f]{64})(?:\.(\d{1,15}))?\.(voice|forgotten)$/

function voiceFiles(folder: string): readonly VoiceFile[] {
  let names: readonly string[]
  try {
    names = readdirSync(folder)
  } catch {
    return []
  }
  return names.flatMap((name) => {
    const [, of = '', revision = '1', kind] = NAME.exec(name) ?? []
    return kind === 'voice' || kind === 'forgotten' ? [{ name, of, revision: Number(revision), kind }] : []
  })
}

/** What a newer file of the same voice has taken the place of, when a crash or a restore left both. */
function dropOvertaken(folder: string): void {
  const files = voiceFiles(folder)
  const newest = new Map<string, number>()
  for (const { of, revision } of files) newest.set(of, Math.max(revision, newest.get(of) ?? 0))
  for (const { name, of, revision } of files)
    if (revision < (newest.get(of) ?? 0)) rmSync(join(folder, name), { force: true })
}
