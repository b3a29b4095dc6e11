/** `npm run owner-code`: for an owner who lost the password. Works beside a running server. */
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { readSettings } from '../settings.ts'
import { MIGRATIONS } from '../storage/migrations.ts'
import { sqliteAccounts } from '../storage/sqlite-accounts.ts'
import { Sqlite } from '../storage/sqlite-engine.ts'
import { sqliteRecords } from '../storage/sqlite-records.ts'
import { readMachine } from '../time/machine-clock.ts'
import { startTrustedClock } from '../time/trusted-clock.ts'
import { laterOwnerCode } from './owner-code.ts'
import { openPepper } from './pepper.ts'
import { secretsWith } from './secrets.ts'

const BUSY_MS = 5000

const read = readSettings(process.env)
if (read.kind === 'faulty') fail(read.what, read.mend)
else await make(read.settings.dataFolder)

async function make(dataFolder: string): Promise<void> {
  const file = join(dataFolder, 'sidecall.db')
  if (!existsSync(file)) return fail(`There is no store in ${dataFolder}.`, 'Name its folder with SIDECALL_DATA.')
  const opened = openPepper(dataFolder)
  if (opened.kind === 'failed') return fail(opened.what, opened.mend)
  const database = new Sqlite(file, { timeout: BUSY_MS })
  try {
    if (database.pragma('user_version', { simple: true }) !== MIGRATIONS.length)
      return fail('The store is of another version of Sidecall.', 'Start this version once, then try again.')
    const clock = await startTrustedClock(sqliteRecords(database), readMachine)
    const code = await laterOwnerCode(sqliteAccounts(database, secretsWith(opened.pepper)), clock.now())
    console.log(`One-time code for an owner, good for an hour: ${code}`)
    console.log(
      'Open "People and devices" on the first screen, choose "I have a code for my password", and give your name as it was.'
    )
  } finally {
    database.close()
  }
}

function fail(what: string, mend: string): void {
  console.error(`${what} ${mend}`)
  process.exitCode = 1
}
