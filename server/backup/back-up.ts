/** A copy of a shop's store, taken while the server runs, and proved whole before it is called a backup. */
import { createHash } from 'node:crypto'
import {
  copyFileSync,
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync
} from 'node:fs'
import { join } from 'node:path'
import { PEPPER_FILE } from '../accounts/pepper.ts'
import { VOICES_FOLDER } from '../voices/voice-store.ts'
import { Sqlite } from '../storage/sqlite-engine.ts'

export const STORE = 'sidecall.db'
/** Without these a store cannot be signed for, and nobody can sign in. */
const SECRETS = ['signing-key.pem', PEPPER_FILE]
export const LIST = 'backup.json'

/** What a backup says of itself. */
export interface BackupList {
  /** ISO 8601, UTC. */
  readonly takenAt: string
  readonly files: readonly { readonly name: string; readonly bytes: number; readonly sha256: string }[]
  readonly runs: number
  readonly events: number
}

export type BackedUp =
  | { readonly kind: 'done'; readonly folder: string; readonly list: BackupList }
  | { readonly kind: 'failed'; readonly what: string; readonly mend: string }

/** `into` gets a folder of its own for this backup, named by `now` (epoch ms). Unfinished ones end in `.unfinished`. */
export async function backUp(dataFolder: string, into: string, now: number): Promise<BackedUp> {
  const store = join(dataFolder, STORE)
  if (!existsSync(store))
    return { kind: 'failed', what: `There is no store in ${dataFolder}.`, mend: 'Name its folder with SIDECALL_DATA.' }
  const takenAt = new Date(now).toISOString()
  const folder = join(into, `sidecall-${takenAt.replace(/[:.]/g, '-')}`)
  const unfinished = `${folder}.unfinished`
  try {
    if (existsSync(folder)) throw new Error(`${folder} is there already`)
    mkdirSync(unfinished, { recursive: true })
    const source = new Sqlite(store, { readonly: true })
    try {
      await source.backup(join(unfinished, STORE))
    } finally {
      source.close()
    }
    for (const name of SECRETS)
      if (existsSync(join(dataFolder, name))) copyFileSync(join(dataFolder, name), join(unfinished, name))
    const counted = countIn(join(unfinished, STORE))
    const voices = copyVoices(dataFolder, unfinished)
    const files = [STORE, ...SECRETS, ...voices].filter((name) => existsSync(join(unfinished, name)))
    const list: BackupList = { takenAt, files: files.map((name) => fileOf(unfinished, name)), ...counted }
    writeFileSync(join(unfinished, LIST), `${JSON.stringify(list, null, 2)}\n`, { flush: true })
    renameSync(unfinished, folder)
    return { kind: 'done', folder, list }
  } catch (error) {
    rmSync(unfinished, { recursive: true, force: true })
    return {
      kind: 'failed',
      what: `No backup was made: ${error instanceof Error ? error.message : String(error)}.`,
      mend: 'Check room and permissions of both folders, and try it once more. The store was not changed.'
    }
  }
}

const MOST_TRIES = 5

/** While they are copied one may be practised anew or forgotten, and its file be gone: then from the start. */
function copyVoices(dataFolder: string, into: string): readonly string[] {
  const [from, to] = [join(dataFolder, VOICES_FOLDER), join(into, VOICES_FOLDER)]
  if (!existsSync(from)) return []
  for (let tries = 1; ; tries++) {
    try {
      cpSync(from, to, { recursive: true, filter: (path) => !path.endsWith('.part') })
      return readdirSync(to).map((name) => `${VOICES_FOLDER}/${name}`)
    } catch (error) {
      if (tries === MOST_TRIES) throw error
      rmSync(to, { recursive: true, force: true })
    }
  }
}

export function fileOf(folder: string, name: string): BackupList['files'][number] {
  const path = join(folder, name)
  return { name, bytes: statSync(path).size, sha256: createHash('sha256').update(readFileSync(path)).digest('hex') }
}

/** `file` is a copy: it may be written to. @throws when it is damaged. */
export function countIn(file: string): Pick<BackupList, 'runs' | 'events'> {
  const copy = new Sqlite(file)
  try {
    // One file, without a journal beside it.
    copy.pragma('journal_mode = DELETE')
    const check: unknown = copy.pragma('integrity_check', { simple: true })
    if (check !== 'ok') throw new Error(`the copy is damaged: ${String(check)}`)
    const count = (table: 'runs' | 'events') => Number(copy.prepare(`SELECT count(*) FROM ${table}`).pluck().get())
    return { runs: count('runs'), events: count('events') }
  } finally {
    copy.close()
  }
}
