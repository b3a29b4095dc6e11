import { readEvent } from '../core/record/wire.ts'
import { compareEvents, type RunEvent } from '../core/run/event.ts'
import type { Clock } from '../ports/clock.ts'
import type { EventLog, Kept } from '../ports/event-log.ts'
import { logDatabase } from './event-log-database.ts'
import { addEvents, leaveOutbox, moveAside, WRITTEN } from './event-log-writes.ts'
import { listeners } from './listeners.ts'

/** The part of a BroadcastChannel that is used here. */
export interface TabChannel {
  postMessage(news: unknown): void
  addEventListener(type: 'message', listener: (event: { readonly data: unknown }) => void): void
  close(): void
}

export interface EventLogParts {
  readonly databaseName: string
  readonly clock: Clock
  /** Reaches the other tabs of this browser; null where there is no such channel. */
  readonly channel: TabChannel | null
}

const TRUSTED_TIME = 'trusted-time'

export function indexedDbEventLog({ databaseName, clock, channel }: EventLogParts): EventLog {
  const database = logDatabase(databaseName, clock)
  const elsewhere = listeners<string>()
  channel?.addEventListener('message', ({ data }) => {
    if (typeof data === 'string') elsewhere.tell(data)
  })

  const add = async (events: readonly RunEvent[], toOutbox: boolean): Promise<Kept<void>> => {
    const kept = await database.write(WRITTEN, (transaction) => addEvents(transaction, events, toOutbox))
    return told(kept)
  }

  const told = (kept: Kept<readonly string[]>): Kept<void> => {
    if (kept.kind === 'failed') return kept
    for (const runId of kept.value) {
      // oxlint-disable-next-line unicorn/require-post-message-target-origin -- that is for windows, a channel has none
      channel?.postMessage(runId)
    }
    return { kind: 'kept', value: undefined }
  }

  const salvage: EventLog['salvage'] = (runId) =>
    database.read(['events'], async (transaction) => {
      const index = transaction.objectStore('events').index('run')
      const [rows, ids] = await Promise.all([index.getAll(runId), index.getAllKeys(runId)])
      const read = rows.map(readEvent)
      return {
        events: read.flatMap((one) => (one.kind === 'event' ? [one.event] : [])).sort(compareEvents),
        damaged: ids.filter((_, place) => read[place]?.kind === 'malformed')
      }
    })

  return {
    append: (events) => add(events, true),
    receive: (events) => add(events, false),
    salvage,
    async read(runId) {
      const found = await salvage(runId)
      if (found.kind === 'failed') return found
      const { events, damaged } = found.value
      if (damaged.length === 0) return { kind: 'kept', value: events }
      return { kind: 'failed', reason: 'corrupt', detail: `Events ${damaged.join(', ')} cannot be read.` }
    },
    count: (runId) =>
      database.read(['events'], (transaction) => transaction.objectStore('events').index('run').count(runId)),
    async setAside(loss) {
      const kept = await database.write(WRITTEN, async (transaction) => {
        await moveAside(transaction, loss)
        return addEvents(transaction, [loss], true)
      })
      return told(kept)
    },
    runs: () =>
      database.read(['runs'], async (transaction) => {
        const oldestFirst = await transaction.objectStore('runs').index('startedAt').getAllKeys()
        return oldestFirst.toReversed()
      }),
    unsent: (limit) =>
      database.write(['events', 'outbox', 'rejected'], async (transaction) => {
        const unsent: RunEvent[] = []
        let row = await transaction.objectStore('outbox').openCursor()
        while (row && unsent.length < limit) {
          const { id } = row.value
          const read = readEvent(await transaction.objectStore('events').get(id))
          if (read.kind === 'event') {
            unsent.push(read.event)
          } else {
            await transaction.objectStore('rejected').put({ id, why: `damaged on this device: ${read.why}` })
            await row.delete()
          }
          row = await row.continue()
        }
        return unsent
      }),
    sent: (ids) =>
      database.write(['outbox'], async (transaction) => {
        for (const id of ids) await leaveOutbox(transaction, id)
      }),
    async sendAgain(runId) {
      // Before the transaction, which would end while this is waited for.
      const again = await import('./event-log-again.ts').catch(() => null)
      if (!again) return { kind: 'failed', reason: 'unavailable', detail: 'Part of the page cannot be loaded.' }
      return database.write(['events', 'outbox', 'rejected'], (transaction) => again.toOutboxAnew(transaction, runId))
    },
    rejected: (event) =>
      database.write(['outbox', 'rejected'], async (transaction) => {
        await leaveOutbox(transaction, event.id)
        await transaction.objectStore('rejected').put(event)
      }),
    rejections: () => database.read(['rejected'], (transaction) => transaction.objectStore('rejected').getAll()),
    keepProcedure: (pinned) =>
      database.write(['procedures'], async (transaction) => {
        await transaction.objectStore('procedures').put(pinned)
      }),
    procedure: (hash) =>
      database
        .read(['procedures'], (transaction) => transaction.objectStore('procedures').get(hash))
        .then(sound(`The procedure ${hash}`, (row) => typeof row.procedure === 'object' && row.procedure !== null)),
    keepMark: (mark) =>
      database.write(['marks'], async (transaction) => {
        await transaction.objectStore('marks').put(mark, TRUSTED_TIME)
      }),
    // A damaged mark must not look like none: without one, a wall clock that was set forward would be believed.
    mark: () =>
      database
        .read(['marks'], (transaction) => transaction.objectStore('marks').get(TRUSTED_TIME))
        .then(sound('The last trusted time', (row) => Number.isFinite(row.trusted) && Number.isFinite(row.wall))),
    keepSetting: (key, value) =>
      database.write(['settings'], async (transaction) => {
        await transaction.objectStore('settings').put(value, key)
      }),
    setting: (key) =>
      database
        .read(['settings'], (transaction) => transaction.objectStore('settings').get(key))
        .then(sound(`The setting ${key}`, (row) => typeof row === 'string')),
    onElsewhere: elsewhere.add,
    close() {
      database.close()
      channel?.close()
    }
  }
}

/** Null when there is no row; corrupt when there is one that is not what was put there. */
function sound<T>(what: string, isSound: (row: T) => boolean): (kept: Kept<T | undefined>) => Kept<T | null> {
  return (kept) => {
    if (kept.kind === 'failed') return kept
    if (kept.value === undefined) return { kind: 'kept', value: null }
    if (isSound(kept.value)) return { kind: 'kept', value: kept.value }
    return { kind: 'failed', reason: 'corrupt', detail: `${what} cannot be read.` }
  }
}
