/** Opens the store, or says in words what is wrong with it. Never deletes or overwrites what it cannot read. */
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { MIGRATIONS } from './migrations.ts'

export type Opened =
  | { readonly kind: 'open'; readonly database: Database.Database }
  | { readonly kind: 'failed'; readonly what: string; readonly mend: string }

export function openDatabase(folder: string): Opened {
  const file = join(folder, 'sidecall.db')
  try {
    mkdirSync(folder, { recursive: true })
  } catch (error) {
    return { kind: 'failed', what: `The data folder ${folder} cannot be made: ${messageOf(error)}.`, mend: 'Choose another with SIDECALL_DATA, or mend its permissions.' }
  }
  let database: Database.Database | null = null
  try {
    database = new Database(file)
    database.pragma('journal_mode = WAL')
    // FULL, not the default of this mode: what was acknowledged must survive a power cut.
    database.pragma('synchronous = FULL')
    database.pragma('foreign_keys = ON')
    database.pragma('busy_timeout = 5000')
    const check: unknown = database.pragma('quick_check', { simple: true })
    if (check !== 'ok') throw new Error(String(check))
    const version = Number(database.pragma('user_version', { simple: true }))
    if (version > MIGRATIONS.length) {
      database.close()
      return { kind: 'failed', what: `The store ${file} was written by a newer Sidecall (version ${version}, this one knows ${MIGRATIONS.length}).`, mend: 'Start the newer program, or choose another folder with SIDECALL_DATA.' }
    }
    migrate(database, version)
    return { kind: 'open', database }
  } catch (error) {
    database?.close()
    return { kind: 'failed', what: `The store ${file} cannot be used: ${messageOf(error)}.`, mend: 'It was left as it is. Check disk space and permissions, put a backup in its place, or choose another folder with SIDECALL_DATA.' }
  }
}

function migrate(database: Database.Database, from: number): void {
  for (let version = from; version < MIGRATIONS.length; version += 1) {
    database.transaction(() => {
      database.exec(MIGRATIONS[version] ?? '')
      database.pragma(`user_version = ${version + 1}`)
    }).immediate()
  }
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error)
}
