/** Opens the store, or says in words what is wrong with it. Never deletes or overwrites what it cannot read. */
import { existsSync, mkdirSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { MIGRATIONS, type Migration } from './migrations.ts'
import { Sqlite, type SqliteConnection } from './sqlite-engine.ts'

export type Opened =
  | { readonly kind: 'open'; readonly database: SqliteConnection }
  | { readonly kind: 'failed'; readonly what: string; readonly mend: string }

/** How long to wait for a program that makes a backup, ms. */
const BUSY_MS = 5000
/** 16 MB of journal, four times the default: carrying it over costs two more syncs, in the middle of somebody's batch. */
const JOURNAL_PAGES = 4000

export function openDatabase(folder: string, migrations: readonly Migration[] = MIGRATIONS): Opened {
  const file = join(folder, 'sidecall.db')
  const another = 'choose another folder with SIDECALL_DATA.'
  try {
    mkdirSync(folder, { recursive: true })
  } catch (error) {
    return failed(
      `The data folder ${folder} cannot be made: ${messageOf(error)}.`,
      `Mend its permissions, or ${another}`
    )
  }
  let database: SqliteConnection | null = null
  try {
    if (lostItsFile(file)) throw new Error('it is empty, but its journal is not')
    const version = existsSync(file) ? checkedVersion(file) : 0
    if (version > migrations.length) {
      return failed(
        `The store ${file} was written by a newer Sidecall (version ${version}, this one knows ${migrations.length}).`,
        `Start the newer program, or ${another}`
      )
    }
    database = new Sqlite(file, { timeout: 0 })
    if (!holdFolder(database, folder)) {
      database.close()
      return failed(
        `Another Sidecall is running with the data folder ${folder}.`,
        `Use that one, stop it first, or ${another}`
      )
    }
    database.pragma(`busy_timeout = ${BUSY_MS}`)
    database.pragma('main.journal_mode = WAL')
    // FULL, not the default of this mode: what was acknowledged must survive a power cut.
    database.pragma('main.synchronous = FULL')
    database.pragma(`main.wal_autocheckpoint = ${JOURNAL_PAGES}`)
    database.pragma('foreign_keys = ON')
    // A store that may only be read opens well; it must fail here, and not at the first event of somebody's run.
    database.exec('BEGIN; CREATE TABLE attempt (a); ROLLBACK')
    migrate(database, version, migrations)
    return { kind: 'open', database }
  } catch (error) {
    database?.close()
    return failed(
      `The store ${file} cannot be used: ${messageOf(error)}.`,
      `It was left as it is. Check disk space and permissions, put a backup in its place, or ${another}`
    )
  }
}

/** SQLite would take an empty file for a new store, and throw away the journal that still holds events. */
function lostItsFile(file: string): boolean {
  const journal = `${file}-wal`
  return existsSync(journal) && statSync(journal).size > 0 && (!existsSync(file) || statSync(file).size === 0)
}

/** Reads only, because even closing a damaged or newer store would change it. Throws when it is damaged. */
function checkedVersion(file: string): number {
  const database = new Sqlite(file, { readonly: true, timeout: BUSY_MS })
  try {
    const check: unknown = database.pragma('quick_check', { simple: true })
    if (check !== 'ok') throw new Error(String(check))
    return Number(database.pragma('user_version', { simple: true }))
  } finally {
    database.close()
  }
}

/**
 * Two servers on one store would tell their pages different times. The lock is on a file of its own, so that a running
 * store can be read and backed up; the system drops it with the process, however that ends.
 */
function holdFolder(database: SqliteConnection, folder: string): boolean {
  try {
    database.prepare('ATTACH ? AS held').run(join(folder, 'in-use.lock'))
    database.pragma('held.locking_mode = EXCLUSIVE')
    database.exec('BEGIN EXCLUSIVE; COMMIT')
    return true
  } catch (error) {
    if (error instanceof Sqlite.SqliteError && error.code.startsWith('SQLITE_BUSY')) return false
    throw error
  }
}

function migrate(database: SqliteConnection, from: number, migrations: readonly Migration[]): void {
  for (const [index, step] of migrations.entries()) {
    if (index < from) continue
    database
      .transaction(() => {
        if (typeof step === 'string') database.exec(step)
        else step(database)
        database.pragma(`user_version = ${index + 1}`)
      })
      .immediate()
  }
}

function failed(what: string, mend: string): Opened {
  return { kind: 'failed', what, mend }
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error)
}
