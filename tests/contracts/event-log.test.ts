import fc from 'fast-check'
import { afterEach, describe, expect, test } from 'vitest'
import { fakeClock } from '../helpers/fake-clock.ts'
import { indexedDbStorage } from '../helpers/indexeddb-storage.ts'
import { memoryStorage } from '../helpers/memory-event-log.ts'
import type { EventLog } from '../../src/ports/event-log.ts'
import { eventLogCases, lost, stepDone, type LogStorage } from './event-log.contract.ts'

const opened = new Set<EventLog>()
afterEach(() => {
  for (const log of opened) log.close()
  opened.clear()
})

/** Closes what a case leaves open, since an open channel keeps Node from ending. */
function closing(storage: {
  open(): EventLog
  damage(id: string): void | Promise<void>
  aside(): readonly string[] | Promise<readonly string[]>
}): LogStorage {
  return {
    open() {
      const log = storage.open()
      opened.add(log)
      return log
    },
    damage: async (id) => storage.damage(id),
    aside: async () => storage.aside()
  }
}

const storages = {
  memory: () => closing(memoryStorage()),
  IndexedDB: () => closing(indexedDbStorage(fakeClock()))
}

describe.each(Object.entries(storages))('event log over %s', (_, make) => {
  test.each(eventLogCases)('$name', async ({ run }) => {
    await expect(run(make())).resolves.toBeUndefined()
  })
})

test('in any order of work both give the same answers', async () => {
  const seqs = fc.array(fc.integer({ min: 1, max: 9 }), { maxLength: 4 })
  const work = fc.oneof(
    fc.record({ kind: fc.constantFrom('append' as const, 'receive' as const, 'sent' as const), seqs }),
    fc.record({
      kind: fc.constantFrom('rejected' as const, 'damage' as const, 'setAside' as const),
      seqs: fc.tuple(fc.integer({ min: 1, max: 9 }))
    }),
    fc.record({ kind: fc.constant('unsent' as const), seqs: fc.tuple(fc.integer({ min: 0, max: 5 })) }),
    fc.record({ kind: fc.constant('reopen' as const), seqs: fc.constant([]) })
  )
  const event = (seq: number) => stepDone(seq, { runId: seq % 2 === 0 ? 'even' : 'odd', at: 1000 - seq })

  await fc.assert(
    fc.asyncProperty(fc.array(work, { maxLength: 15 }), async (all) => {
      const transcripts = await Promise.all(
        Object.values(storages).map(async (make) => {
          const storage = make()
          const answers: unknown[] = []
          const present = new Set<number>()
          let log = storage.open()
          for (const { kind, seqs: given } of all) {
            const events = given.map(event)
            if (kind === 'append' || kind === 'receive') {
              answers.push(await log[kind](events))
              for (const seq of given) present.add(seq)
            } else if (kind === 'sent') {
              answers.push(await log.sent(events.map(({ id }) => id)))
            } else if (kind === 'rejected') {
              answers.push(await log.rejected({ id: events[0]?.id ?? '', why: 'no' }))
            } else if (kind === 'setAside') {
              const { id, runId } = event(given[0] ?? 1)
              answers.push(await log.setAside({ ...lost(10 + (given[0] ?? 1), [id]), runId }))
            } else if (kind === 'damage') {
              if (given[0] && present.has(given[0])) await storage.damage(events[0]?.id ?? '')
            } else if (kind === 'unsent') {
              answers.push(await log.unsent(given[0] ?? 0))
            } else {
              log.close()
              log = storage.open()
            }
          }
          for (const run of ['even', 'odd']) answers.push(await log.read(run), await log.salvage(run))
          answers.push(await log.runs(), await log.unsent(100), await log.rejections(), await storage.aside())
          log.close()
          return answers
        })
      )
      expect(transcripts[1]).toEqual(transcripts[0])
    }),
    { numRuns: 100 }
  )
})
