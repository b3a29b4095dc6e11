/**
 * What every event log must do. Plain code without a test runner, so that the same cases run in Node over memory and a
 * stand-in for IndexedDB, and inside a real browser over the real one.
 */
import type { RunEvent } from '../../src/core/run/event.ts'
import type { EntriesLost, EventLog, Kept, PinnedProcedure } from '../../src/ports/event-log.ts'

export interface LogStorage {
  /** A log over the same storage: again after `close` to reload, twice for two tabs. */
  open(): EventLog
  /** Makes the stored row of this event one that cannot be read. */
  damage(id: string): Promise<void>
  /** Ids of the rows that were moved aside, in order. */
  aside(): Promise<readonly string[]>
}

export interface LogCase {
  readonly name: string
  /** Rejects when the log does not do it. `storage` is empty. */
  run(storage: LogStorage): Promise<void>
}

export function stepDone(seq: number, changes: Partial<Extract<RunEvent, { type: 'step-done' }>> = {}): RunEvent {
  return {
    id: `event-${String(seq).padStart(4, '0')}`,
    runId: 'run-a',
    at: 1_700_000_000_000 + seq * 1000,
    deviceAt: 1_700_000_000_000 + seq * 1000,
    device: 'tablet-1',
    seq,
    by: 'Ana',
    via: 'voice',
    type: 'step-done',
    lane: 'left',
    step: `step-${seq}`,
    round: 1,
    confirmation: 'everyday',
    ...changes
  }
}

const envelopeOf = (seq: number) => {
  const { id, runId, at, deviceAt, device, by, via } = stepDone(seq)
  return { id, runId, at, deviceAt, device, seq, by, via }
}
export const started = (seq: number): RunEvent => ({
  ...envelopeOf(seq),
  type: 'run-started',
  procedureId: 'evening',
  procedureHash: 'abc',
  site: 'Corner shop',
  machine: 'Freezer 1',
  zone: 'America/Chicago'
})
const signed = (seq: number): RunEvent => ({
  ...envelopeOf(seq),
  type: 'signed',
  meaning: 'review',
  entries: 3,
  head: 'head'
})

const pinned: PinnedProcedure = {
  hash: 'abc',
  procedure: {
    id: 'evening',
    title: { en: 'Evening' },
    summary: { en: 'Clean it.' },
    languages: ['en'],
    machine: { en: 'Twin' },
    sides: [{ id: 'left', name: { en: 'Left' } }],
    tools: [],
    parts: [],
    supplies: [],
    solutions: [],
    stages: []
  }
}

export const eventLogCases: readonly LogCase[] = [
  {
    name: 'an empty log has nothing',
    async run(storage) {
      const log = storage.open()
      same(await log.read('run-a'), kept([]))
      same(await log.runs(), kept([]))
      same(await log.unsent(10), kept([]))
      same(await log.rejections(), kept([]))
      same(await log.procedure('abc'), kept(null))
      same(await log.mark(), kept(null))
      same(await log.setting('device'), kept(null))
    }
  },
  {
    name: 'what was appended outlives a reload, whole and in the outbox',
    async run(storage) {
      const first = storage.open()
      const events = [stepDone(1), stepDone(2, { lane: 'right' }), reading(3)]
      same(await first.append(events), kept(undefined))
      first.close()
      const log = storage.open()
      same(await log.read('run-a'), kept(events))
      same(await log.unsent(10), kept(events))
    }
  },
  {
    name: 'appending nothing is kept',
    async run(storage) {
      same(await storage.open().append([]), kept(undefined))
    }
  },
  {
    name: 'the same id twice is one event, and the first stays as it was',
    async run(storage) {
      const log = storage.open()
      await log.append([stepDone(1), stepDone(1)])
      same(await log.append([stepDone(1, { by: 'Someone else' }), stepDone(2)]), kept(undefined))
      same(await log.read('run-a'), kept([stepDone(1), stepDone(2)]))
      same(await log.unsent(10), kept([stepDone(1), stepDone(2)]))
      await log.sent(['event-0001', 'event-0002'])
      await log.append([stepDone(1)])
      same(await log.unsent(10), kept([]))
    }
  },
  {
    name: 'appends at the same moment keep all, with the outbox in the order of writing',
    async run(storage) {
      const log = storage.open()
      const events = Array.from({ length: 30 }, (_, index) => stepDone(30 - index))
      await Promise.all(events.map((event) => log.append([event])))
      same(await log.unsent(100), kept(events))
      same(await log.unsent(7), kept(events.slice(0, 7)))
      same(await log.read('run-a'), kept(events.toReversed()))
    }
  },
  {
    name: 'reads in the agreed order: time, then device, then its own count',
    async run(storage) {
      const log = storage.open()
      const late = stepDone(1, { at: 9000, seq: 1 })
      const second = stepDone(2, { at: 5000, device: 'tablet-2', seq: 1 })
      const first = stepDone(3, { at: 5000, device: 'tablet-1', seq: 2 })
      const before = stepDone(4, { at: 5000, device: 'tablet-1', seq: 1 })
      await log.append([late, second, first, before])
      same(await log.read('run-a'), kept([before, first, second, late]))
    }
  },
  {
    name: 'received events are kept and not sent back; an own event that comes back stays unsent until told',
    async run(storage) {
      const log = storage.open()
      await log.append([stepDone(1)])
      same(await log.receive([stepDone(1), stepDone(2, { device: 'tablet-2' })]), kept(undefined))
      same(await log.read('run-a'), kept([stepDone(1), stepDone(2, { device: 'tablet-2' })]))
      same(await log.unsent(10), kept([stepDone(1)]))
    }
  },
  {
    name: 'a run that the server lost goes into the outbox anew, from its beginning on, without its signatures',
    async run(storage) {
      const log = storage.open()
      const [start, later] = [started(1), stepDone(3)]
      const theirs = stepDone(2, { device: 'tablet-2' })
      await log.append([stepDone(9, { runId: 'run-b' }), later])
      await log.receive([start, theirs, signed(4)])
      await log.sent([later.id])
      await log.rejected({ id: theirs.id, why: 'no' })
      same(await log.sendAgain('run-a'), kept(true))
      same(await log.unsent(10), kept([stepDone(9, { runId: 'run-b' }), start, theirs, later]))
      same(await log.rejections(), kept([]))
      same(await log.sendAgain('run-a'), kept(true))
      same(await log.unsent(10), kept([stepDone(9, { runId: 'run-b' }), start, theirs, later]))
    }
  },
  {
    name: 'a run without its beginning is not sent anew',
    async run(storage) {
      const log = storage.open()
      await log.append([stepDone(1)])
      await log.sent(['event-0001'])
      same(await log.sendAgain('run-a'), kept(false))
      await log.append([started(2)])
      await storage.damage('event-0002')
      same(await log.sendAgain('run-a'), kept(false))
      same(await log.unsent(10), kept([]))
    }
  },
  {
    name: 'what was refused because the server did not know its run is sent once the beginning comes, and nothing else',
    async run(storage) {
      const log = storage.open()
      await log.append([stepDone(2), stepDone(3), stepDone(4, { runId: 'run-b' })])
      await log.rejected({ id: 'event-0002', why: 'no', because: 'unknown-run' })
      await log.rejected({ id: 'event-0003', why: 'never' })
      await log.rejected({ id: 'event-0004', why: 'no', because: 'unknown-run' })
      await log.receive([started(1)])
      same(await log.unsent(10), kept([stepDone(2)]))
      same(
        await log.rejections(),
        kept([
          { id: 'event-0003', why: 'never' },
          { id: 'event-0004', why: 'no', because: 'unknown-run' }
        ])
      )
    }
  },
  {
    name: 'events of a run are counted, each once, damaged ones too',
    async run(storage) {
      const log = storage.open()
      same(await log.count('run-a'), kept(0))
      await log.append([stepDone(1), stepDone(1), stepDone(2), stepDone(3, { runId: 'run-b' })])
      await log.receive([stepDone(2), stepDone(4, { device: 'tablet-2' })])
      same(await log.count('run-a'), kept(3))
      await storage.damage('event-0001')
      same(await log.count('run-a'), kept(3))
    }
  },
  {
    name: 'runs are listed newest first, by the earliest event that is known',
    async run(storage) {
      const log = storage.open()
      await log.append([stepDone(1, { runId: 'old', at: 1000 })])
      await log.append([stepDone(2, { runId: 'new', at: 5000 })])
      await log.append([stepDone(3, { runId: 'old', at: 9000 })])
      same(await log.runs(), kept(['new', 'old']))
      await log.receive([stepDone(4, { runId: 'new', at: 500 })])
      same(await log.runs(), kept(['old', 'new']))
      same(
        await log.read('old'),
        kept([stepDone(1, { runId: 'old', at: 1000 }), stepDone(3, { runId: 'old', at: 9000 })])
      )
    }
  },
  {
    name: 'only what the server has leaves the outbox; unknown ids do no harm',
    async run(storage) {
      const log = storage.open()
      await log.append([stepDone(1), stepDone(2), stepDone(3)])
      same(await log.sent(['event-0002', 'never-heard-of']), kept(undefined))
      same(await log.unsent(10), kept([stepDone(1), stepDone(3)]))
      same(await log.read('run-a'), kept([stepDone(1), stepDone(2), stepDone(3)]))
    }
  },
  {
    name: 'a rejected event is listed with its reason and stays in the run',
    async run(storage) {
      const log = storage.open()
      await log.append([stepDone(1), stepDone(2)])
      same(await log.rejected({ id: 'event-0001', why: 'the run is closed' }), kept(undefined))
      same(await log.rejected({ id: 'event-0001', why: 'the run is signed' }), kept(undefined))
      log.close()
      const again = storage.open()
      same(await again.rejections(), kept([{ id: 'event-0001', why: 'the run is signed' }]))
      same(await again.unsent(10), kept([stepDone(2)]))
      same(await again.read('run-a'), kept([stepDone(1), stepDone(2)]))
    }
  },
  {
    name: 'a damaged event makes its run corrupt, names it, and leaves the others readable',
    async run(storage) {
      const log = storage.open()
      await log.append([stepDone(1), stepDone(2), stepDone(3), stepDone(9, { runId: 'run-b' })])
      await storage.damage('event-0002')
      const read = await log.read('run-a')
      ok(
        read.kind === 'failed' && read.reason === 'corrupt' && read.detail.includes('event-0002'),
        'names the damaged event',
        read
      )
      same(await log.salvage('run-a'), kept({ events: [stepDone(1), stepDone(3)], damaged: ['event-0002'] }))
      same(await log.read('run-b'), kept([stepDone(9, { runId: 'run-b' })]))
      same(await log.salvage('run-b'), kept({ events: [stepDone(9, { runId: 'run-b' })], damaged: [] }))
    }
  },
  {
    name: 'a damaged event does not hold up the outbox, and people can see it',
    async run(storage) {
      const log = storage.open()
      await log.append([stepDone(1), stepDone(2), stepDone(3)])
      await storage.damage('event-0001')
      same(await log.unsent(1), kept([stepDone(2)]))
      const rejections = await log.rejections()
      ok(
        rejections.kind === 'kept' &&
          rejections.value[0]?.id === 'event-0001' &&
          rejections.value[0].why.includes('damaged'),
        'lists the damaged event',
        rejections
      )
      same(await log.unsent(10), kept([stepDone(2), stepDone(3)]))
      ok((await log.read('run-a')).kind === 'failed', 'is still corrupt', null)
    }
  },
  {
    name: 'a sound copy that is received takes the place of a damaged event, whose row is kept aside, and is not sent',
    async run(storage) {
      const log = storage.open()
      await log.append([stepDone(1), stepDone(2), stepDone(3)])
      await log.sent(['event-0001', 'event-0002'])
      await storage.damage('event-0002')
      same(await log.receive([stepDone(1), stepDone(2)]), kept(undefined))
      same(await log.read('run-a'), kept([stepDone(1), stepDone(2), stepDone(3)]))
      same(await log.unsent(10), kept([stepDone(3)]))
      same(await storage.aside(), ['event-0002'])
    }
  },
  {
    name: 'a damaged event that was not sent yet is sent after all, once a sound copy is appended or received',
    async run(storage) {
      const log = storage.open()
      await log.append([stepDone(1), stepDone(2), stepDone(3)])
      await storage.damage('event-0001')
      await storage.damage('event-0002')
      await log.receive([stepDone(2)])
      same(await log.unsent(10), kept([stepDone(2), stepDone(3)]))
      ok((await log.read('run-a')).kind === 'failed', 'is still corrupt', null)
      await log.append([stepDone(1)])
      same(await log.unsent(10), kept([stepDone(2), stepDone(3), stepDone(1)]))
      same(await log.rejections(), kept([]))
      same(await log.read('run-a'), kept([stepDone(1), stepDone(2), stepDone(3)]))
      same(await storage.aside(), ['event-0002', 'event-0001'])
    }
  },
  {
    name: 'going on without damaged events moves exactly these aside and sends what says so; nothing else changes',
    async run(storage) {
      const log = storage.open()
      await log.append([stepDone(1), stepDone(2), stepDone(3), stepDone(9, { runId: 'run-b' })])
      await storage.damage('event-0002')
      await log.unsent(10)
      const loss = lost(4, ['event-0002', 'event-0003', 'never-heard-of'])
      same(await log.setAside(loss), kept(undefined))
      same(await log.setAside(loss), kept(undefined))
      same(await log.read('run-a'), kept([stepDone(1), stepDone(3), loss]))
      same(await log.read('run-b'), kept([stepDone(9, { runId: 'run-b' })]))
      same(await log.unsent(10), kept([stepDone(1), stepDone(3), stepDone(9, { runId: 'run-b' }), loss]))
      same(await log.rejections(), kept([]))
      same(await storage.aside(), ['event-0002'])
      log.close()
      same(await storage.open().read('run-a'), kept([stepDone(1), stepDone(3), loss]))
    }
  },
  {
    name: 'what was gone on without comes back when the server has it after all',
    async run(storage) {
      const log = storage.open()
      await log.append([stepDone(1), stepDone(2)])
      await storage.damage('event-0002')
      const loss = lost(3, ['event-0002'])
      await log.setAside(loss)
      await log.receive([stepDone(1), stepDone(2)])
      same(await log.read('run-a'), kept([stepDone(1), stepDone(2), loss]))
    }
  },
  {
    name: 'procedures, the mark and settings outlive a reload, and the last value counts',
    async run(storage) {
      const first = storage.open()
      same(await first.keepProcedure(pinned), kept(undefined))
      same(await first.keepProcedure(pinned), kept(undefined))
      await first.keepMark({ trusted: 1, wall: 2 })
      same(await first.keepMark({ trusted: 3, wall: 4 }), kept(undefined))
      await first.keepSetting('device', 'tablet-1')
      same(await first.keepSetting('device', 'tablet-2'), kept(undefined))
      await first.keepSetting('language', '')
      first.close()
      const log = storage.open()
      same(await log.procedure('abc'), kept(pinned))
      same(await log.mark(), kept({ trusted: 3, wall: 4 }))
      same(await log.setting('device'), kept('tablet-2'))
      same(await log.setting('language'), kept(''))
    }
  },
  {
    name: 'another tab is told of the run that changed, this one is not, and nobody of what was there already',
    async run(storage) {
      const here = storage.open()
      const there = storage.open()
      const heardHere: string[] = []
      const heardThere: string[] = []
      here.onElsewhere((runId) => heardHere.push(runId))
      const forget = there.onElsewhere((runId) => heardThere.push(runId))
      await here.append([stepDone(1), stepDone(2)])
      await until(() => heardThere.length > 0)
      same(heardThere, ['run-a'])
      same(heardHere, [])
      same(await there.read('run-a'), kept([stepDone(1), stepDone(2)]))
      await here.append([stepDone(1)])
      await there.receive([stepDone(3, { runId: 'run-b' })])
      await until(() => heardHere.length > 0)
      same(heardHere, ['run-b'])
      same(heardThere, ['run-a'])
      forget()
      await here.append([stepDone(4)])
      await there.append([stepDone(5)])
      await until(() => heardHere.length > 1)
      same(heardThere, ['run-a'])
      here.close()
      there.close()
    }
  },
  {
    name: 'a closed log says so',
    async run(storage) {
      const log = storage.open()
      log.close()
      const answer = await log.append([stepDone(1)])
      ok(answer.kind === 'failed' && answer.reason === 'unavailable', 'is unavailable', answer)
    }
  }
]

function reading(seq: number): RunEvent {
  const { id, runId, at, deviceAt, device, by, via } = stepDone(seq)
  return {
    ...{ id, runId, at, deviceAt, device, seq, by, via },
    type: 'check-answered',
    ...{ lane: 'left', step: 'temperature', round: 1 },
    answer: { kind: 'reading', value: 49.5, unit: 'Cel' },
    good: true
  }
}

export function lost(seq: number, ids: readonly string[]): EntriesLost {
  const { id, runId, at, deviceAt, device, by, via } = stepDone(seq)
  return { ...{ id, runId, at, deviceAt, device, seq, by, via }, type: 'entries-lost', ids, gaps: 0 }
}

function kept<T>(value: T): Kept<T> {
  return { kind: 'kept', value }
}

function ok(holds: boolean, what: string, seen: unknown): void {
  if (!holds) throw new Error(`The log should: ${what}. It gave ${canonical(seen)}.`)
}

function same(actual: unknown, expected: unknown): void {
  if (canonical(actual) !== canonical(expected)) {
    throw new Error(`The log gave\n${canonical(actual)}\nand should have given\n${canonical(expected)}`)
  }
}

/** JSON with sorted names: storage may give them in another order. */
function canonical(value: unknown): string {
  return JSON.stringify(value, (_, part: unknown) =>
    typeof part === 'object' && part !== null && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part
  )
}

/** Lets messages between tabs arrive; gives up after many turns of the event loop, not after a time. */
async function until(holds: () => boolean): Promise<void> {
  for (let turn = 0; turn < 2000 && !holds(); turn++) {
    await new Promise<void>((resolve) => {
      const { port1, port2 } = new MessageChannel()
      port1.addEventListener('message', () => {
        port1.close()
        resolve()
      })
      port1.start()
      port2.postMessage(null)
    })
  }
}
