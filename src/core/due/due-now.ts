/** What is due at each machine, from its records and the shop's schedule. All instants are trusted epoch ms. */
import { startBy } from '../plan/times/start-by.ts'
import type { Text } from '../procedure/procedure.ts'
import type { Cited } from '../sanitizer/rule-set.ts'
import type { Duty, Schedule } from './schedule.ts'

/** A run of the past or one that is under way, as the list of records has it. */
export interface PastRun {
  readonly runId: string
  readonly procedure: string
  readonly machine: string
  readonly zone: string
  readonly startedAt: number
  /** When it was finished; null while it goes on, and when it was ended early: that did not do what was due. */
  readonly doneAt: number | null
  readonly open: boolean
}

export interface KnownProcedure {
  readonly id: string
  readonly title: Text
  readonly sides: readonly Text[]
  readonly machine: string
  /** What it takes in ms, by its plan; null where there is none. */
  readonly needsMs: number | null
}

export type DueState =
  /** Nothing has to be done now; due then, null when nobody can say yet. */
  | { readonly kind: 'in-order'; readonly dueAt: number | null; readonly startBy: number | null }
  /** Whoever does not begin now will be late. */
  | { readonly kind: 'start-now'; readonly dueAt: number; readonly startBy: number }
  | { readonly kind: 'overdue'; readonly dueAt: number; readonly use: Duty['otherwise'] }
  /** It is nowhere in the records. */
  | { readonly kind: 'never-done'; readonly use: Duty['otherwise'] }
  | { readonly kind: 'under-way'; readonly runId: string; readonly dueAt: number | null }

export interface DutyDue extends Cited {
  readonly machine: string
  readonly procedure: string
  /** Null for a procedure that is not here any more. */
  readonly title: Text | null
  /** A run is over only when all of them are done. */
  readonly sides: readonly Text[]
  readonly duty: Duty['kind']
  readonly lastDone: number | null
  readonly state: DueState
}

export interface DueFacts {
  readonly schedule: Schedule
  readonly procedures: readonly KnownProcedure[]
  readonly runs: readonly PastRun[]
  /** IANA zone of the shop, for machines without a record. */
  readonly zone: string
}

export function dueNow(facts: DueFacts, now: number): readonly DutyDue[] {
  return facts.schedule.duties.map((duty) => dutyDue(facts, duty, now))
}

function dutyDue({ procedures, runs, zone }: DueFacts, duty: Duty, now: number): DutyDue {
  const { procedure, source, edition, status } = duty
  const known = procedures.find(({ id }) => id === procedure)
  const own = runs.filter((run) => run.procedure === procedure)
  const lastDone = lastOf(runs, [procedure])
  const dueAt = whenDue(duty, runs, { lastDone, zone: latest(runs)?.zone ?? zone, now })
  const underWay = own.find(({ open }) => open)
  return {
    machine: latest(own)?.machine ?? known?.machine ?? procedure,
    procedure,
    title: known?.title ?? null,
    sides: known?.sides ?? [],
    duty: duty.kind,
    lastDone,
    state: underWay
      ? { kind: 'under-way', runId: underWay.runId, dueAt: dueAt.at }
      : stateOf(dueAt, known?.needsMs ?? 0, duty.otherwise, now),
    ...{ source, edition, status }
  }
}

type WhenDue =
  | { readonly kind: 'at'; readonly at: number }
  | { readonly kind: 'nothing'; readonly at: null }
  | { readonly kind: 'never-done'; readonly at: null }

const NOTHING: WhenDue = { kind: 'nothing', at: null }

interface Moment {
  readonly lastDone: number | null
  readonly zone: string
  readonly now: number
}

function whenDue(duty: Duty, runs: readonly PastRun[], { lastDone, zone, now }: Moment): WhenDue {
  switch (duty.kind) {
    case 'every':
      return lastDone === null
        ? { kind: 'never-done', at: null }
        : { kind: 'at', at: lastDone + duty.everySeconds * 1000 }
    case 'before-use': {
      const soiled = lastOf(runs, duty.after)
      if (soiled === null || (lastDone !== null && lastDone >= soiled)) return NOTHING
      return { kind: 'at', at: nextTime(duty.by, zone, soiled) }
    }
    case 'day-of-use': {
      if (duty.opens.length === 0) {
        // A clean in the late morning does not do for the evening; one at closing time does (common practice, no source).
        const from = lastDone === null ? now - DAY_MS : lastDone + DAY_MS / 2
        return { kind: 'at', at: nextTime(duty.by, zone, from) }
      }
      const opened = lastOf(runs, duty.opens)
      if (opened === null || (lastDone !== null && lastDone >= opened)) return NOTHING
      return { kind: 'at', at: nextTime(duty.by, zone, opened) }
    }
  }
}

const DAY_MS = 24 * 60 * 60_000

/** When the clock in the shop next shows that time; the schedule's times and zones have been checked. */
function nextTime(time: string, zone: string, after: number): number {
  const next = startBy({ time, zone }, 0, after)
  if ('opensAt' in next) return next.opensAt
  const inUtc = startBy({ time, zone: 'UTC' }, 0, after)
  return 'opensAt' in inUtc ? inUtc.opensAt : after
}

function stateOf(due: WhenDue, needsMs: number, use: Duty['otherwise'], now: number): DueState {
  if (due.kind === 'never-done') return { kind: 'never-done', use }
  if (due.kind === 'nothing') return { kind: 'in-order', dueAt: null, startBy: null }
  const begin = due.at - needsMs
  if (now >= due.at) return { kind: 'overdue', dueAt: due.at, use }
  return { kind: now >= begin ? 'start-now' : 'in-order', dueAt: due.at, startBy: begin }
}

function latest(runs: readonly PastRun[]): PastRun | null {
  return runs.reduce<PastRun | null>((last, run) => (last && last.startedAt > run.startedAt ? last : run), null)
}

/** When one of these procedures was last finished. */
function lastOf(runs: readonly PastRun[], procedures: readonly string[]): number | null {
  return runs.reduce<number | null>(
    (last, { procedure, doneAt }) =>
      doneAt !== null && procedures.includes(procedure) ? Math.max(doneAt, last ?? doneAt) : last,
    null
  )
}
