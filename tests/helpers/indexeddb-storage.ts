import 'fake-indexeddb/auto'
import { IDBFactory } from 'fake-indexeddb'
import { openDB } from 'idb'
import { indexedDbEventLog } from '../../src/devices/event-log-indexeddb.ts'
import type { Clock } from '../../src/ports/clock.ts'
import type { EventLog } from '../../src/ports/event-log.ts'

export const DATABASE = 'sidecall-test'

/** A browser's IndexedDB in Node, empty at first. */
export function indexedDbStorage(clock: Clock) {
  globalThis.indexedDB = new IDBFactory()
  return {
    open: (): EventLog => indexedDbEventLog({ databaseName: DATABASE, clock, channel: new BroadcastChannel(DATABASE) }),
    async damage(id: string): Promise<void> {
      await plant('events', (await storedRun(id)) ?? { id })
    },
    async aside(): Promise<readonly string[]> {
      const database = await openDB(DATABASE)
      const rows = (await database.getAll('damaged')) as readonly { readonly id: string }[]
      database.close()
      return rows.map(({ id }) => id)
    }
  }
}

async function storedRun(id: string): Promise<object | undefined> {
  const database = await openDB(DATABASE)
  const row = (await database.get('events', id)) as { readonly runId: string } | undefined
  database.close()
  return row && { id, runId: row.runId }
}

/** Writes a row as it is, past the log. */
export async function plant(store: string, row: unknown, key?: IDBValidKey): Promise<void> {
  const database = await openDB(DATABASE)
  await database.put(store, row, key)
  database.close()
}
