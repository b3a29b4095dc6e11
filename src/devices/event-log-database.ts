import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction, type StoreNames } from 'idb'
import type { RunEvent } from '../core/run/event.ts'
import type { Clock } from '../ports/clock.ts'
import type { Kept, PinnedProcedure, TimeMark } from '../ports/event-log.ts'
import type { RejectedEvent } from '../ports/server.ts'
import { connectionLost, logFailure } from './event-log-failure.ts'

export interface LogSchema extends DBSchema {
  events: { key: string; value: RunEvent; indexes: { run: string } }
  runs: { key: string; value: { readonly runId: string; readonly startedAt: number }; indexes: { startedAt: number } }
  /** In the order of writing, which is the order of sending. */
  outbox: { key: number; value: { readonly id: string }; indexes: { id: string } }
  rejected: { key: string; value: RejectedEvent }
  /** Rows that could not be read, as they were. */
  damaged: { key: number; value: { readonly id: string; readonly runId: string; readonly row: unknown } }
  procedures: { key: string; value: PinnedProcedure }
  marks: { key: string; value: TimeMark }
  settings: { key: string; value: string }
}

export type LogStore = StoreNames<LogSchema>
export type LogTransaction<Mode extends 'readonly' | 'readwrite'> = IDBPTransaction<LogSchema, LogStore[], Mode>

export interface LogDatabase {
  /** One transaction: all of `work` or nothing, strictly durable when it resolves. Reopens a lost connection once. */
  write<T>(
    stores: readonly LogStore[],
    work: (transaction: LogTransaction<'readwrite'>) => Promise<T>
  ): Promise<Kept<T>>
  read<T>(stores: readonly LogStore[], work: (transaction: LogTransaction<'readonly'>) => Promise<T>): Promise<Kept<T>>
  close(): void
}

const LOG_VERSION = 2
/** Opening hangs for ever on some WebKit versions; a write behind a busy disk takes well under a second. */
const PATIENCE_MS = 10_000

type Connection = IDBPDatabase<LogSchema>

export function logDatabase(name: string, clock: Clock): LogDatabase {
  let opening: Promise<Connection> | null = null
  let closed = false

  /** Forgets the connection, so that the next use opens another; a late one is closed as it comes. */
  const forget = (which: Promise<Connection> | null) => {
    if (!which || opening !== which) return
    opening = null
    which.then((connection) => connection.close()).catch(() => {})
  }

  const open = (): Promise<Connection> => {
    if (opening) return opening
    let blocked: (fault: DOMException) => void = () => {}
    const blockedByOther = new Promise<never>((_, reject) => (blocked = reject))
    let cause: DOMException | null = null
    const connecting = openDB<LogSchema>(name, LOG_VERSION, {
      upgrade(connection, before, _after, transaction) {
        // The request itself only says that the upgrade was aborted, not by what.
        transaction.done.catch(() => (cause = transaction.error))
        createStores(connection, before)
      },
      blocked: () => blocked(new DOMException('Another tab keeps an older version open; close it.', 'VersionError')),
      // A newer page wants to upgrade; it must not wait for this one.
      blocking: () => forget(mine),
      terminated: () => forget(mine)
    }).catch((fault: unknown) => {
      throw cause ?? fault
    })
    const mine: Promise<Connection> = Promise.race([connecting, blockedByOther])
    opening = mine
    mine.catch(() => {
      if (opening === mine) opening = null
      // When the other tab is closed after all, this connection is one too many.
      connecting.then((connection) => connection.close()).catch(() => {})
    })
    return mine
  }

  const transact = async <T, Mode extends 'readonly' | 'readwrite'>(
    stores: readonly LogStore[],
    mode: Mode,
    work: (transaction: LogTransaction<Mode>) => Promise<T>,
    givenUp: AbortSignal
  ): Promise<T> => {
    const connection = await open()
    givenUp.throwIfAborted()
    const transaction = connection.transaction([...stores], mode, { durability: 'strict' })
    transaction.done.catch(() => {})
    const abort = () => {
      try {
        transaction.abort()
      } catch {
        // It is over already.
      }
    }
    givenUp.addEventListener('abort', abort)
    try {
      const value = await work(transaction)
      await transaction.done
      return value
    } catch (fault) {
      // The transaction knows the cause, such as a full disk, that the failed request may not.
      const cause = transaction.error ?? fault
      abort()
      throw cause
    }
  }

  const use = async <T>(attempt: (givenUp: AbortSignal) => Promise<T>): Promise<Kept<T>> => {
    if (closed) return { kind: 'failed', reason: 'unavailable', detail: 'The log is closed.' }
    const giveUp = new AbortController()
    const twice = async (): Promise<Kept<T>> => {
      try {
        return { kind: 'kept', value: await attempt(giveUp.signal) }
      } catch (fault) {
        if (closed || giveUp.signal.aborted || !connectionLost(fault)) return logFailure(fault)
        forget(opening)
        return attempt(giveUp.signal).then((value) => ({ kind: 'kept', value }), logFailure)
      }
    }
    let cancel = () => {}
    const patience = new Promise<Kept<T>>((resolve) => {
      cancel = clock.after(PATIENCE_MS, () => {
        // What is reported as not kept must not be kept a moment later.
        giveUp.abort()
        forget(opening)
        resolve({ kind: 'failed', reason: 'unavailable', detail: `No answer from storage in ${PATIENCE_MS / 1000} s.` })
      })
    })
    const kept = await Promise.race([twice(), patience])
    cancel()
    return kept
  }

  return {
    write: (stores, work) => use((givenUp) => transact(stores, 'readwrite', work, givenUp)),
    read: (stores, work) => use((givenUp) => transact(stores, 'readonly', work, givenUp)),
    close() {
      closed = true
      forget(opening)
    }
  }
}

/** What versions after `before` (0: there was nothing) have brought. What is stored stays as it is. */
function createStores(connection: Connection, before: number): void {
  if (before < 1) createFirstStores(connection)
  if (before < 2) connection.createObjectStore('damaged', { autoIncrement: true })
}

function createFirstStores(connection: Connection): void {
  connection.createObjectStore('events', { keyPath: 'id' }).createIndex('run', 'runId')
  connection.createObjectStore('runs', { keyPath: 'runId' }).createIndex('startedAt', 'startedAt')
  connection.createObjectStore('outbox', { autoIncrement: true }).createIndex('id', 'id', { unique: true })
  connection.createObjectStore('rejected', { keyPath: 'id' })
  connection.createObjectStore('procedures', { keyPath: 'hash' })
  connection.createObjectStore('marks')
  connection.createObjectStore('settings')
}
