import { forceCloseDatabase } from 'fake-indexeddb'
import { deleteDB, openDB } from 'idb'
import { afterEach, describe, expect, test, vi } from 'vitest'
import { lost, started, stepDone } from '../../tests/contracts/event-log.contract.ts'
import { fakeClock, promisesRun } from '../../tests/helpers/fake-clock.ts'
import { DATABASE, indexedDbStorage, plant } from '../../tests/helpers/indexeddb-storage.ts'
import type { EventLog } from '../ports/event-log.ts'

// What every log must do is held in tests/contracts; here is only what IndexedDB does to one.

const KEPT = { kind: 'kept', value: undefined }
let opened: EventLog[] = []
afterEach(() => {
  vi.restoreAllMocks()
  for (const log of opened) log.close()
  opened = []
})

/** A log over empty storage, open from the beginning unless the test is about opening it. */
async function world({ isOpen = true } = {}) {
  const clock = fakeClock()
  const log = indexedDbStorage(clock).open()
  opened.push(log)
  if (isOpen) await log.runs()
  return { clock, log }
}

/** The next transactions fail as named; later ones work. Returns how many were begun. */
function failTransactions(...faults: readonly (readonly ['throws' | 'aborts', string])[]) {
  const left = [...faults]
  const begun: (IDBTransactionOptions | undefined)[] = []
  const real = IDBDatabase.prototype.transaction
  vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (
    this: IDBDatabase,
    stores,
    mode,
    options
  ) {
    begun.push(options)
    const [how, name] = left.shift() ?? []
    if (how === 'throws') throw new DOMException('Connection to Indexed Database server lost.', name)
    const transaction = real.call(this, stores, mode, options)
    // As a browser ends a transaction that finds the disk full when it wants to commit.
    if (how === 'aborts') (transaction as unknown as { _abort(name: string | null): void })._abort(name ?? null)
    return transaction
  })
  return begun
}

describe('writing', () => {
  test('is strictly durable', async () => {
    const { log } = await world()
    const begun = failTransactions()
    await log.append([stepDone(1)])
    expect(begun).toEqual([{ durability: 'strict' }])
  })

  test('takes the beginning of a long run without asking for each of its entries', async () => {
    const { log } = await world()
    await log.append(Array.from({ length: 50 }, (_, index) => stepDone(index + 2)))
    await log.rejected({ id: 'event-0007', why: 'no', because: 'unknown-run' })
    const asked = vi.spyOn(IDBObjectStore.prototype, 'get')
    await log.receive([started(1)])
    expect(asked.mock.calls.length).toBeLessThan(5)
    expect(await log.unsent(100)).toMatchObject({ value: { length: 50 } })
  })

  test('is all or nothing', async () => {
    const { log } = await world()
    const cannotBeStored = stepDone(2, { by: (() => {}) as unknown as string })
    expect(await log.append([stepDone(1), cannotBeStored])).toMatchObject({ kind: 'failed', reason: 'unavailable' })
    expect(await log.read('run-a')).toEqual({ kind: 'kept', value: [] })
    expect(await log.unsent(9)).toEqual({ kind: 'kept', value: [] })
    expect(await log.append([stepDone(1)])).toEqual(KEPT)
  })

  test('a full disk says so, keeps nothing of it, and works again when there is room', async () => {
    const { log } = await world()
    await log.append([stepDone(1)])
    failTransactions(['aborts', 'QuotaExceededError'])
    expect(await log.append([stepDone(2)])).toMatchObject({ kind: 'failed', reason: 'full' })
    expect(await log.read('run-a')).toEqual({ kind: 'kept', value: [stepDone(1)] })
    expect(await log.append([stepDone(2)])).toEqual(KEPT)
  })
})

test('a write that is given up after 10 s is not kept a moment later', async () => {
  const { log, clock } = await world()
  const other = await openDB(DATABASE)
  const busy = other.transaction('events', 'readwrite')
  const lock = { held: true }
  const work = (async () => {
    while (lock.held) await busy.store.count()
    await busy.done
  })()
  const answer = log.append([stepDone(1)])
  await clock.pass(10_000)
  expect(await answer).toMatchObject({ kind: 'failed', reason: 'unavailable' })
  lock.held = false
  await work
  other.close()
  expect(await log.read('run-a')).toEqual({ kind: 'kept', value: [] })
  expect(await log.append([stepDone(1)])).toEqual(KEPT)
})

describe('a connection that is lost', () => {
  test.each(['InvalidStateError', 'UnknownError'])('%s: opened again once, and the write is kept', async (name) => {
    const { log } = await world()
    await log.append([stepDone(1)])
    failTransactions(['throws', name])
    expect(await log.append([stepDone(2)])).toEqual(KEPT)
    expect(await log.read('run-a')).toEqual({ kind: 'kept', value: [stepDone(1), stepDone(2)] })
  })

  test('cut in the middle of a write: written once', async () => {
    const { log } = await world()
    failTransactions(['aborts', null as unknown as string])
    expect(await log.append([stepDone(1)])).toEqual(KEPT)
    expect(await log.unsent(9)).toEqual({ kind: 'kept', value: [stepDone(1)] })
  })

  test('lost again at once: unavailable, and it opens again for the next use', async () => {
    const { log } = await world()
    failTransactions(['throws', 'UnknownError'], ['throws', 'UnknownError'])
    expect(await log.append([stepDone(1)])).toEqual({
      kind: 'failed',
      reason: 'unavailable',
      detail: 'UnknownError: Connection to Indexed Database server lost.'
    })
    expect(await log.append([stepDone(1)])).toEqual(KEPT)
  })

  test('the browser ends it between two uses', async () => {
    const { log } = await world()
    const connections: IDBDatabase[] = []
    const real = IDBDatabase.prototype.transaction
    vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (this: IDBDatabase, ...all) {
      connections.push(this)
      return real.apply(this, all)
    })
    await log.append([stepDone(1)])
    const [first] = connections
    if (first) forceCloseDatabase(first as never)
    await promisesRun()
    expect(await log.append([stepDone(2)])).toEqual(KEPT)
    expect(new Set(connections).size).toBe(2)
  })
})

describe('opening', () => {
  test('a newer page has changed the storage: says so, and touches nothing', async () => {
    const { log } = await world({ isOpen: false })
    await log.append([stepDone(1)])
    // Not held up: the log lets go when the newer page asks.
    const newer = await openDB(DATABASE, 99)
    expect(await log.append([stepDone(2)])).toMatchObject({ kind: 'failed', reason: 'newer-version' })
    expect(await newer.getAllKeys('events')).toEqual(['event-0001'])
    newer.close()
  })

  test('an older page holds it: says so at once, and works when that one is closed', async () => {
    const { log } = await world({ isOpen: false })
    const real = indexedDB.open.bind(indexedDB)
    vi.spyOn(indexedDB, 'open').mockImplementationOnce((name, version) => {
      const request = real(name, version)
      queueMicrotask(() =>
        request.dispatchEvent(new IDBVersionChangeEvent('blocked', { oldVersion: 0, newVersion: 1 }))
      )
      return request
    })
    expect(await log.append([stepDone(1)])).toMatchObject({ kind: 'failed', reason: 'newer-version' })
    expect(await log.append([stepDone(1)])).toEqual(KEPT)
    log.close()
    // A connection that came after all must not be left open: it would hold up this deletion.
    await deleteDB(DATABASE, { blocked: () => expect.unreachable() })
  })

  test('on a full disk says that it is full', async () => {
    const { log } = await world({ isOpen: false })
    failTransactions(['aborts', 'QuotaExceededError'])
    expect(await log.append([stepDone(1)])).toMatchObject({ kind: 'failed', reason: 'full' })
  })

  test('that never answers is given up after 10 s, and tried anew for the next use', async () => {
    const { log, clock } = await world({ isOpen: false })
    vi.spyOn(indexedDB, 'open').mockImplementationOnce(() => new (IDBOpenDBRequest as new () => IDBOpenDBRequest)())
    const answer = log.append([stepDone(1)])
    await clock.pass(10_000)
    expect(await answer).toMatchObject({ kind: 'failed', reason: 'unavailable' })
    expect(await log.append([stepDone(1)])).toEqual(KEPT)
    expect(clock.pending()).toBe(0)
  })

  test('a browser without IndexedDB', async () => {
    const { log } = await world({ isOpen: false })
    vi.spyOn(globalThis, 'indexedDB', 'get').mockImplementation(() => {
      throw new DOMException('not in this mode', 'SecurityError')
    })
    expect(await log.read('run-a')).toMatchObject({ kind: 'failed', reason: 'unavailable' })
  })
})

describe('storage of an earlier version', () => {
  /** As version 1 of this log made it. */
  async function firstVersion(): Promise<void> {
    const first = await openDB(DATABASE, 1, {
      upgrade(connection) {
        connection.createObjectStore('events', { keyPath: 'id' }).createIndex('run', 'runId')
        connection.createObjectStore('runs', { keyPath: 'runId' }).createIndex('startedAt', 'startedAt')
        connection.createObjectStore('outbox', { autoIncrement: true }).createIndex('id', 'id', { unique: true })
        connection.createObjectStore('rejected', { keyPath: 'id' })
        connection.createObjectStore('procedures', { keyPath: 'hash' })
        connection.createObjectStore('marks')
        connection.createObjectStore('settings')
      }
    })
    await first.put('events', stepDone(1))
    await first.put('events', { id: 'event-0002', runId: 'run-a' })
    await first.put('runs', { runId: 'run-a', startedAt: 1000 })
    await first.put('outbox', { id: 'event-0001' })
    await first.put('outbox', { id: 'event-0002' })
    await first.put('rejected', { id: 'event-0000', why: 'too old' })
    await first.put('marks', { trusted: 3, wall: 4 }, 'trusted-time')
    await first.put('settings', 'tablet-1', 'device')
    first.close()
  }

  test('1 keeps everything, sound or damaged, and what is damaged can be moved aside from then on', async () => {
    const { log } = await world({ isOpen: false })
    await firstVersion()
    expect(await log.salvage('run-a')).toEqual({
      kind: 'kept',
      value: { events: [stepDone(1)], damaged: ['event-0002'] }
    })
    expect(await log.runs()).toEqual({ kind: 'kept', value: ['run-a'] })
    expect(await log.rejections()).toEqual({ kind: 'kept', value: [{ id: 'event-0000', why: 'too old' }] })
    expect(await log.mark()).toEqual({ kind: 'kept', value: { trusted: 3, wall: 4 } })
    expect(await log.setting('device')).toEqual({ kind: 'kept', value: 'tablet-1' })
    expect(await log.receive([stepDone(2)])).toEqual(KEPT)
    expect(await log.read('run-a')).toEqual({ kind: 'kept', value: [stepDone(1), stepDone(2)] })
    expect(await log.unsent(9)).toEqual({ kind: 'kept', value: [stepDone(1), stepDone(2)] })
    const now = await openDB(DATABASE)
    expect(now.version).toBe(2)
    expect(await now.getAll('damaged')).toEqual([
      { id: 'event-0002', runId: 'run-a', row: { id: 'event-0002', runId: 'run-a' } }
    ])
    now.close()
  })

  test('1 that a page of that version holds open is left to it, and said', async () => {
    const { log } = await world({ isOpen: false })
    await firstVersion()
    const older = await openDB(DATABASE, 1)
    expect(await log.append([stepDone(3)])).toMatchObject({ kind: 'failed', reason: 'newer-version' })
    older.close()
    expect(await log.append([stepDone(3)])).toEqual(KEPT)
  })
})

describe('going on without what was lost', () => {
  test('is all or nothing: a full disk leaves the run as damaged as it was', async () => {
    const { log } = await world()
    await log.append([stepDone(1), stepDone(2)])
    await plant('events', { id: 'event-0002', runId: 'run-a' })
    failTransactions(['aborts', 'QuotaExceededError'])
    expect(await log.setAside(lost(3, ['event-0002']))).toMatchObject({ kind: 'failed', reason: 'full' })
    expect(await log.read('run-a')).toMatchObject({ kind: 'failed', reason: 'corrupt' })
    expect(await log.setAside(lost(3, ['event-0002']))).toEqual(KEPT)
    expect(await log.read('run-a')).toEqual({ kind: 'kept', value: [stepDone(1), lost(3, ['event-0002'])] })
  })

  test('a row that does not even say its run any more is mended by a sound copy', async () => {
    const { log } = await world()
    await log.append([stepDone(1), stepDone(2)])
    await plant('events', { id: 'event-0002', nonsense: true })
    expect(await log.read('run-a')).toEqual({ kind: 'kept', value: [stepDone(1)] })
    await log.receive([stepDone(1), stepDone(2)])
    expect(await log.read('run-a')).toEqual({ kind: 'kept', value: [stepDone(1), stepDone(2)] })
  })
})

describe('damaged values', () => {
  test('a mark that cannot be read does not look like none', async () => {
    const { log } = await world()
    await log.keepMark({ trusted: 1, wall: 2 })
    await plant('marks', { trusted: 'soon' }, 'trusted-time')
    expect(await log.mark()).toMatchObject({ kind: 'failed', reason: 'corrupt' })
  })

  test('a setting and a procedure neither', async () => {
    const { log } = await world()
    await log.keepSetting('device', 'tablet-1')
    await plant('settings', 7, 'device')
    await plant('procedures', { hash: 'abc', procedure: null })
    expect(await log.setting('device')).toMatchObject({ kind: 'failed', reason: 'corrupt' })
    expect(await log.procedure('abc')).toMatchObject({
      kind: 'failed',
      reason: 'corrupt',
      detail: expect.stringContaining('abc')
    })
  })
})
