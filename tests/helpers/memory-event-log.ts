import { runToSendAgain } from '../../src/devices/event-log-again.ts'
import { listeners } from '../../src/devices/listeners.ts'
import { readEvent } from '../../src/core/record/wire.ts'
import { compareEvents, type RunEvent } from '../../src/core/run/event.ts'
import type { RejectedEvent } from '../../src/ports/server.ts'
import type { EventLog, Kept, LogFailure, PinnedProcedure, TimeMark } from '../../src/ports/event-log.ts'

/** What outlives a tab: open it again to reload, or twice for two tabs of one browser. */
export interface MemoryStorage {
  open(): MemoryEventLog
  /** The stored row of this event can no longer be read. */
  damage(id: string): void
  /** The row of this event is gone without a trace. */
  lose(id: string): void
  /** Ids of the damaged rows that were moved aside, in order. */
  aside(): readonly string[]
}

export interface MemoryEventLog extends EventLog {
  /** The next write fails, with nothing kept. */
  failNext(reason: LogFailure): void
  /** Every write fails until told otherwise with null. */
  failAll(reason: LogFailure | null): void
}

export function memoryStorage(): MemoryStorage {
  const events = new Map<string, unknown>()
  const runOf = new Map<string, string>()
  const started = new Map<string, number>()
  const rejected = new Map<string, RejectedEvent>()
  const aside: { readonly id: string; readonly row: unknown }[] = []
  const procedures = new Map<string, PinnedProcedure>()
  const settings = new Map<string, string>()
  const tabs = new Set<{ readonly told: (runId: string) => void }>()
  let outbox: string[] = []
  let mark: TimeMark | null = null

  const copy = <T>(value: T): T => structuredClone(value)

  const open = (): MemoryEventLog => {
    const elsewhere = listeners<string>()
    const tab = { told: elsewhere.tell }
    let always: LogFailure | null = null
    let once: LogFailure | null = null
    let closed = false
    tabs.add(tab)

    const failed = (reason: LogFailure, detail: string) => ({ kind: 'failed', reason, detail }) as const
    /** Later, as a real log would answer; what to keep is taken before the caller can change it. */
    const answer = async <T>(work: () => T): Promise<Kept<T>> => {
      await Promise.resolve()
      if (closed) return failed('unavailable', 'The log is closed.')
      return { kind: 'kept', value: work() }
    }
    const write = async <T>(work: () => T): Promise<Kept<T>> => {
      const reason = once ?? always
      once = null
      return reason ? failed(reason, 'The test said so.') : answer(work)
    }
    const isDamaged = (id: string) => events.has(id) && readEvent(events.get(id)).kind === 'malformed'
    const keepAside = (id: string) => {
      aside.push({ id, row: events.get(id) })
      rejected.delete(id)
    }
    const outOfRejected = (runId: string) => {
      for (const { id, because } of [...rejected.values()].sort((a, b) => (a.id < b.id ? -1 : 1))) {
        if (because !== 'unknown-run' || runOf.get(id) !== runId) continue
        rejected.delete(id)
        outbox.push(id)
      }
    }
    const add = async (
      given: readonly RunEvent[],
      toOutbox: boolean,
      before: () => void = () => {}
    ): Promise<Kept<void>> => {
      const added = copy(given)
      const changed = new Set<string>()
      const kept = await write(() => {
        before()
        // What mends a damaged row comes into the outbox behind what is new.
        const damaged = new Set(added.filter(({ id }) => isDamaged(id)).map(({ id }) => id))
        for (const event of [
          ...added.filter(({ id }) => !damaged.has(id)),
          ...added.filter(({ id }) => damaged.has(id))
        ]) {
          if (isDamaged(event.id)) keepAside(event.id)
          else if (events.has(event.id)) continue
          events.set(event.id, event)
          runOf.set(event.id, event.runId)
          if (!toOutbox) rejected.delete(event.id)
          else if (!outbox.includes(event.id)) outbox.push(event.id)
          started.set(event.runId, Math.min(event.at, started.get(event.runId) ?? event.at))
          changed.add(event.runId)
          if (event.type === 'run-started') outOfRejected(event.runId)
        }
      })
      for (const runId of changed) for (const other of tabs) if (other !== tab) other.told(runId)
      return kept
    }
    const salvage: EventLog['salvage'] = (runId) =>
      answer(() => {
        const ids = [...events.keys()].filter((id) => runOf.get(id) === runId)
        const read = ids.map((id) => ({ id, row: readEvent(events.get(id)) }))
        return {
          events: copy(read.flatMap(({ row }) => (row.kind === 'event' ? [row.event] : []))).sort(compareEvents),
          damaged: read
            .filter(({ row }) => row.kind === 'malformed')
            .map(({ id }) => id)
            .sort()
        }
      })

    return {
      append: (given) => add(given, true),
      receive: (given) => add(given, false),
      setAside: (loss) =>
        add([loss], true, () => {
          for (const id of loss.ids.filter(isDamaged)) {
            keepAside(id)
            events.delete(id)
            outbox = outbox.filter((one) => one !== id)
          }
        }),
      salvage,
      async read(runId) {
        const found = await salvage(runId)
        if (found.kind === 'failed') return found
        const { damaged } = found.value
        if (damaged.length > 0) return failed('corrupt', `Events ${damaged.join(', ')} cannot be read.`)
        return { kind: 'kept', value: found.value.events }
      },
      count: (runId) => answer(() => [...events.keys()].filter((id) => runOf.get(id) === runId).length),
      runs: () => answer(() => [...started].sort(([a, at], [b, bt]) => bt - at || (a < b ? 1 : -1)).map(([id]) => id)),
      unsent: (limit) =>
        write(() => {
          const unsent: RunEvent[] = []
          for (const id of [...outbox]) {
            if (unsent.length >= limit) break
            const row = readEvent(events.get(id))
            if (row.kind === 'event') {
              unsent.push(copy(row.event))
            } else {
              rejected.set(id, { id, why: `damaged on this device: ${row.why}` })
              outbox = outbox.filter((one) => one !== id)
            }
          }
          return unsent
        }),
      sent: (ids) =>
        write(() => {
          outbox = outbox.filter((id) => !ids.includes(id))
        }),
      sendAgain: (runId) =>
        write(() => {
          const again = runToSendAgain([...events].flatMap(([id, row]) => (runOf.get(id) === runId ? [row] : [])))
          const ids = again.map(({ id }) => id)
          outbox = [...outbox.filter((id) => !ids.includes(id)), ...ids]
          for (const id of ids) rejected.delete(id)
          return ids.length > 0
        }),
      rejected: (event) =>
        write(() => {
          outbox = outbox.filter((one) => one !== event.id)
          rejected.set(event.id, event)
        }),
      rejections: () => answer(() => copy([...rejected.values()].sort((a, b) => (a.id < b.id ? -1 : 1)))),
      keepProcedure(pinned) {
        const kept = copy(pinned)
        return write(() => void procedures.set(kept.hash, kept))
      },
      procedure: (hash) => answer(() => copy(procedures.get(hash) ?? null)),
      keepMark(given) {
        const kept = copy(given)
        return write(() => {
          mark = kept
        })
      },
      mark: () => answer(() => copy(mark)),
      keepSetting: (key, value) => write(() => void settings.set(key, value)),
      setting: (key) => answer(() => settings.get(key) ?? null),
      onElsewhere: elsewhere.add,
      close() {
        closed = true
        tabs.delete(tab)
      },
      failNext(reason) {
        once = reason
      },
      failAll(reason) {
        always = reason
      }
    }
  }

  return {
    open,
    damage(id) {
      if (!events.has(id)) throw new Error(`There is no event ${id} to damage.`)
      events.set(id, { id, runId: runOf.get(id) })
    },
    lose(id) {
      if (!events.delete(id)) throw new Error(`There is no event ${id} to lose.`)
    },
    aside: () => aside.map(({ id }) => id)
  }
}
