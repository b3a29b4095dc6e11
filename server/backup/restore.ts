/** Puts a backup in the place of a store. What was there is moved aside, never deleted. */
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs'
import { dirname, join } from 'node:path'
import * as v from 'valibot'
import { VOICES_FOLDER } from '../voices/voice-store.ts'
import { openDatabase } from '../storage/open-database.ts'
import { countIn, fileOf, LIST, STORE, type BackupList } from './back-up.ts'

export type Restored =
  /** `aside`: where the earlier store lies now; null where there was none. */
  | { readonly kind: 'done'; readonly list: BackupList; readonly aside: string | null }
  | { readonly kind: 'failed'; readonly what: string; readonly mend: string }

const backupList = v.object({
  takenAt: v.string(),
  files: v.array(
    v.object({
      name: v.pipe(v.string(), v.regex(/^(?:voices\/)?[\w-][\w.-]*$/)),
      bytes: v.number(),
      sha256: v.string()
    })
  ),
  runs: v.number(),
  events: v.number()
})

/** `now`, epoch ms, names what is moved aside. */
export function restore(backup: string, dataFolder: string, now: number): Restored {
  const read = readBackup(backup)
  if (!('takenAt' in read)) return read
  const inUse = whyInUse(dataFolder)
  if (inUse !== null)
    return { kind: 'failed', what: inUse, mend: 'Stop the server that uses this folder first. Nothing was changed.' }
  const fresh = `${dataFolder}.restoring`
  const aside = existsSync(dataFolder) && readdirSync(dataFolder).length > 0
  const asideName = `${dataFolder}.before-${new Date(now).toISOString().replace(/[:.]/g, '-')}`
  try {
    rmSync(fresh, { recursive: true, force: true })
    mkdirSync(fresh, { recursive: true })
    for (const { name } of read.files) {
      mkdirSync(dirname(join(fresh, name)), { recursive: true })
      copyFileSync(join(backup, name), join(fresh, name))
    }
    copyForgotten(dataFolder, fresh)
    countIn(join(fresh, STORE))
    if (aside) renameSync(dataFolder, asideName)
    else rmSync(dataFolder, { recursive: true, force: true })
    renameSync(fresh, dataFolder)
    return { kind: 'done', list: read, aside: aside ? asideName : null }
  } catch (error) {
    rmSync(fresh, { recursive: true, force: true })
    if (!existsSync(dataFolder) && existsSync(asideName)) renameSync(asideName, dataFolder)
    return failed(error instanceof Error ? error.message : String(error))
  }
}

/** Voices that were forgotten since the backup must not come back with it. */
function copyForgotten(dataFolder: string, fresh: string): void {
  const [from, to] = [join(dataFolder, VOICES_FOLDER), join(fresh, VOICES_FOLDER)]
  if (!existsSync(from)) return
  mkdirSync(to, { recursive: true })
  for (const name of readdirSync(from).filter((one) => one.endsWith('.forgotten')))
    copyFileSync(join(from, name), join(to, name))
}

function readBackup(backup: string): BackupList | Extract<Restored, { kind: 'failed' }> {
  let list: BackupList
  try {
    list = v.parse(backupList, JSON.parse(readFileSync(join(backup, LIST), 'utf8')))
  } catch {
    return failed(`${backup} is no finished backup`)
  }
  if (list.files.every(({ name }) => name !== STORE)) return failed('the backup has no store')
  for (const { name, sha256 } of list.files) {
    if (!existsSync(join(backup, name))) return failed(`${name} is missing from the backup`)
    if (fileOf(backup, name).sha256 !== sha256) return failed(`${name} is not as it was when the backup was taken`)
  }
  return list
}

/** Opening it as a server does tells; a damaged store may be replaced. */
function whyInUse(dataFolder: string): string | null {
  if (!existsSync(join(dataFolder, STORE))) return null
  const opened = openDatabase(dataFolder)
  if (opened.kind === 'open') {
    opened.database.close()
    return null
  }
  return opened.what.startsWith('Another Sidecall') ? opened.what : null
}

function failed(why: string): Extract<Restored, { kind: 'failed' }> {
  return {
    kind: 'failed',
    what: `Nothing was restored: ${why}.`,
    mend: 'Take another backup. The store is as it was.'
  }
}
