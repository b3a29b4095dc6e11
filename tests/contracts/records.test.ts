import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe } from 'vitest'
import { memoryRecords } from '../../server/storage/memory-records.ts'
import { openDatabase } from '../../server/storage/open-database.ts'
import type { Records } from '../../server/storage/records.ts'
import { sqliteRecords } from '../../server/storage/sqlite-records.ts'
import { recordsContract } from './records.contract.ts'

describe('records in memory', () => {
  // Nothing of these outlives the process: a restart is left out.
  recordsContract({ fresh: async () => memoryRecords(), reopened: async (records) => records }, 200)
})

const top = mkdtempSync(join(tmpdir(), 'sidecall-records-'))
afterAll(() => rmSync(top, { recursive: true, force: true }))
const folders = new Map<Records, string>()

function opened(folder: string): Records {
  const result = openDatabase(folder)
  if (result.kind === 'failed') throw new Error(`${result.what} ${result.mend}`)
  const records = sqliteRecords(result.database)
  folders.set(records, folder)
  return records
}

describe('records in SQLite', () => {
  recordsContract(
    {
      fresh: async () => opened(mkdtempSync(join(top, 'store-'))),
      async reopened(records) {
        await records.close()
        return opened(folders.get(records) ?? top)
      }
    },
    40
  )
})
