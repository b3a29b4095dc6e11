/**
 * One run on this device: carries commands out, keeps their events before anything is announced, and takes in what
 * other tabs and the server add. All state is recomputed from the events.
 */
import { atom, type ReadableAtom } from 'nanostores'
import type { Course } from '../core/procedure/course.ts'
import type { Command } from '../core/run/command.ts'
import { decide, type Decision, type Stamp } from '../core/run/decide.ts'
import type { RunEvent, RunFact, Via } from '../core/run/event.ts'
import { advance, replay } from '../core/run/reduce.ts'
import type { Order } from '../core/plan/send-to.ts'
import { handsOf, type Run } from '../core/run/run.ts'
import type { LogFailure } from '../ports/event-log.ts'
import type { Ports } from './ports.ts'

export interface SessionState {
  readonly course: Course
  readonly run: Run
  readonly events: readonly RunEvent[]
}

export type Performed =
  | { readonly kind: 'decided'; readonly before: Run; readonly decision: Decision }
  /** Nothing happened: the device could not keep the events. */
  | { readonly kind: 'not-kept'; readonly reason: LogFailure; readonly detail: string }

export interface RunSession {
  readonly $state: ReadableAtom<SessionState>
  readonly device: string
  /** `order` is where the plan sends these hands, step by step. */
  perform(command: Command, via: Via, order: Order): Promise<Performed>
  /** Adds something the program itself noticed; false when it could not be kept. */
  note(fact: RunFact): Promise<boolean>
  /** Reads the log again: another tab or the server may have added events. Tells whether it has. */
  refresh(): Promise<boolean>
}

export interface SessionStart {
  readonly runId: string
  readonly course: Course
  readonly events: readonly RunEvent[]
  readonly device: string
  readonly now: () => number
}

export function openSession(
  { log, locks, newId, clock }: Pick<Ports, 'log' | 'locks' | 'newId' | 'clock'>,
  start: SessionStart
): RunSession {
  const { course, runId, device } = start
  const $state = atom<SessionState>({ course, run: replay(course, runId, start.events), events: start.events })

  async function refresh(): Promise<boolean> {
    const known = $state.get().events
    let read = await log.read(runId)
    const there = new Set(read.kind === 'kept' ? read.value.map(({ id }) => id) : [])
    const missing = known.filter(({ id }) => !there.has(id))
    if (missing.length > 0 && (read.kind === 'kept' || read.reason === 'corrupt')) {
      // Damaged behind this tab's back, which still knows it.
      await log.append(missing.filter((event) => event.device === device))
      await log.receive(missing.filter((event) => event.device !== device))
      read = await log.read(runId)
    }
    if (read.kind === 'failed') return false
    const ids = new Set(known.map(({ id }) => id))
    if (read.value.every(({ id }) => ids.has(id))) return false
    $state.set({ course, run: replay(course, runId, read.value), events: read.value })
    return true
  }

  /** Another tab may have added events; where there are as many as are known here, there are none to read. */
  async function catchUpWithLog(): Promise<void> {
    const count = await log.count(runId)
    if (count.kind === 'failed' || count.value !== $state.get().events.length) await refresh()
  }

  /** Stamps follow each other, and come after everything known of the run, whichever device it came from. */
  function stamper(by: string, via: Via, now: number): Stamp {
    const { events } = $state.get()
    // `now` is rounded down; a wait must not be counted from before it began.
    let at = events.reduce((latest, event) => Math.max(latest, event.at), now + 1)
    let seq = events.reduce((last, event) => (event.device === device ? Math.max(last, event.seq) : last), 0)
    if (events.some((event) => event.at === at && event.device > device)) at += 1
    return (fact) => {
      seq += 1
      return { id: newId(), runId, at, deviceAt: clock.wall(), device, seq, by, via, ...fact }
    }
  }

  async function keep(fresh: readonly RunEvent[]): Promise<Extract<Performed, { kind: 'not-kept' }> | null> {
    if (fresh.length === 0) return null
    const kept = await log.append(fresh)
    if (kept.kind === 'failed') return { kind: 'not-kept', reason: kept.reason, detail: kept.detail }
    const { run, events } = $state.get()
    const all = [...events, ...fresh]
    $state.set({ course, run: advance(course, run, all, fresh), events: all })
    return null
  }

  return {
    $state,
    refresh,
    device,
    perform: (command, via, order) =>
      locks.exclusively(`run ${runId}`, async () => {
        await catchUpWithLog()
        const before = $state.get().run
        const now = start.now()
        const commander = { device, order }
        const by = handsOf(before, device).name
        const decision = decide(course, before, command, now, stamper(by, via, now), commander)
        return (await keep(decision.events)) ?? { kind: 'decided', before, decision }
      }),
    note: (fact) =>
      locks.exclusively(`run ${runId}`, async () => {
        await refresh()
        return (await keep([stamper(handsOf($state.get().run, device).name, 'app', start.now())(fact)])) === null
      })
  }
}
