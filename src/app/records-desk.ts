/** Where records are looked at, signed, added to and taken away. Loaded when somebody first asks for it. */
import { atom, type ReadableAtom } from 'nanostores'
import type { Course } from '../core/procedure/course.ts'
import { makeRecord } from '../core/record/make-record.ts'
import type { Trends } from '../core/record/trends.ts'
import type { RunRecord } from '../core/record/run-record.ts'
import type { Meaning } from '../core/run/event.ts'
import type { Kept } from '../ports/event-log.ts'
import type { DueList, RecordListing, RecordsLink } from '../ports/records.ts'
import type { Answered, ServerFailure } from '../ports/server.ts'
import { addEntry, type AboutRecord } from './add-entry.ts'
import type { Reader } from '../core/record/record-lines.ts'
import { deviceExport, deviceTable, runsOfDevice, type TakenFile, type ToTake } from './device-records.ts'
import { mergedRun } from './merged-run.ts'
import type { Outbox } from './outbox.ts'
import type { Ports } from './ports.ts'
import type { ProcedureShelf } from './procedure-shelf.ts'
import { lookAtSending, type Standing } from './standing.ts'

export type DueShown = DueList
export type DeskLookedBack = Answered<Trends>

export interface Row {
  readonly listing: RecordListing
  /** Nobody but this device has it, as far as it knows. */
  readonly onlyHere: boolean
}

export interface ShownRecord {
  readonly record: RunRecord
  readonly course: Course
  /** Entries that the server does not have; null when it is away. */
  readonly unsent: number | null
}

export type Notice =
  | { readonly kind: 'signed' }
  | { readonly kind: 'kept' }
  | { readonly kind: 'unsent' }
  | { readonly kind: 'not-kept'; readonly detail: string }
  | { readonly kind: 'not-signed'; readonly failure: ServerFailure }

export type Desk =
  | { readonly kind: 'looking' }
  | {
      readonly kind: 'list'
      readonly rows: readonly Row[]
      readonly more: number
      /** Why the list is only that of this device; null when it is the server's. */
      readonly failure: ServerFailure | null
    }
  | { readonly kind: 'trends'; readonly machine: string; readonly looked: Answered<Trends> }
  /** One record, or several to be read or printed together. */
  | { readonly kind: 'records'; readonly shown: readonly ShownRecord[]; readonly notice: Notice | null }

export interface RecordsDesk {
  readonly $desk: ReadableAtom<Desk>
  readonly $standing: ReadableAtom<Standing>
  readonly $due: ReadableAtom<DueList | null>
  list(): Promise<void>
  /** Asks what is due, and what has not been sent. */
  look(): Promise<void>
  show(rows: readonly RunNamed[]): Promise<void>
  /** Looks back over one machine; over all when it is empty. */
  lookBack(machine: string): Promise<void>
  sign(run: string, meaning: Meaning): Promise<void>
  add(run: string, name: string, fact: AboutRecord): Promise<void>
  /** Straight from this device, whether the server is there or not. */
  take(rows: readonly RunNamed[], form: 'json' | 'csv', reader: Reader): Promise<TakenFile>
}

export type RunNamed = Pick<RecordListing, 'runId' | 'procedureHash'>

export interface DeskParts {
  readonly ports: Ports
  readonly link: RecordsLink
  readonly outbox: Outbox
  readonly shelf: ProcedureShelf
  readonly device: string
  readonly now: () => number
}

export function openRecordsDesk({ ports, link, outbox, shelf, device, now }: DeskParts): RecordsDesk {
  const $desk = atom<Desk>({ kind: 'looking' })
  const $standing = atom<Standing>({ kind: 'looking' })
  const $due = atom<DueList | null>(null)

  async function shownRecord({ runId, procedureHash }: RunNamed): Promise<ShownRecord | null> {
    const [course, { events, onServer }] = await Promise.all([shelf.course(procedureHash), mergedRun(ports, runId)])
    const record = course && makeRecord(course, events)
    return record && { record, course, unsent: onServer === null ? null : events.length - onServer }
  }

  async function again(run: string, notice: Notice): Promise<void> {
    const desk = $desk.get()
    if (desk.kind !== 'records') return
    const shown = await Promise.all(
      desk.shown.map(async (one) => (one.record.run === run ? ((await shownRecord(listingOf(one))) ?? one) : one))
    )
    $desk.set({ kind: 'records', shown, notice })
  }

  const desk: RecordsDesk = {
    $desk,
    $standing,
    $due,
    async list() {
      $desk.set({ kind: 'looking' })
      const [listed, own] = await Promise.all([link.list(), runsOfDevice(ports)])
      const theirs = listed.kind === 'answered' ? listed.value.records : []
      const known = new Set(theirs.map(({ runId }) => runId))
      const here = own.filter(({ listing }) => !known.has(listing.runId)).map(({ listing }) => listing)
      const rows = [
        ...theirs.map((listing) => ({ listing, onlyHere: false })),
        ...here.map((listing) => ({ listing, onlyHere: true }))
      ].sort((a, b) => b.listing.startedAt - a.listing.startedAt)
      const [more, failure] = listed.kind === 'answered' ? [listed.value.more, null] : [0, listed.failure]
      $desk.set({ kind: 'list', rows, more, failure })
      await desk.look()
    },
    async look() {
      $standing.set(await lookAtSending(ports, now()))
      const due = await link.due(ports.zone)
      if (due.kind === 'answered') $due.set(due.value)
    },
    async show(rows) {
      $desk.set({ kind: 'looking' })
      const shown: ShownRecord[] = []
      for (const row of rows) {
        const one = await shownRecord(row)
        if (one) shown.push(one)
      }
      $desk.set({ kind: 'records', shown, notice: null })
    },
    async lookBack(machine) {
      $desk.set({ kind: 'looking' })
      $desk.set({ kind: 'trends', machine, looked: await link.trends(machine) })
    },
    async sign(run, meaning) {
      await outbox.flush()
      const { events, onServer } = await mergedRun(ports, run)
      if (onServer !== null && onServer < events.length) return again(run, { kind: 'unsent' })
      const answered = await link.sign(run, { meaning, entries: entriesLookedAt($desk.get(), run) })
      await again(
        run,
        answered.kind === 'answered' ? { kind: 'signed' } : { kind: 'not-signed', failure: answered.failure }
      )
    },
    async add(run, name, fact) {
      const kept = await addEntry(ports, run, fact, { device, now, name })
      if (kept.kind === 'kept') await outbox.flush()
      await again(run, noticeOf(kept))
    },
    async take(rows, form, reader) {
      const runs: ToTake[] = []
      for (const { runId, procedureHash } of rows) {
        const course = await shelf.course(procedureHash)
        const { events } = await mergedRun(ports, runId)
        if (course) runs.push({ events, course, hash: procedureHash })
      }
      const name = rows.length === 1 ? (rows[0]?.runId ?? '') : 'device'
      return form === 'csv' ? deviceTable(runs, name, reader) : deviceExport(runs, name, now())
    }
  }
  return desk
}

/** What was on the screen counts, not what has come since. */
function entriesLookedAt(desk: Desk, run: string): number {
  const shown = desk.kind === 'records' ? desk.shown.find(({ record }) => record.run === run) : undefined
  return shown?.record.entries ?? 0
}

function noticeOf(kept: Kept<void>): Notice {
  return kept.kind === 'kept' ? { kind: 'kept' } : { kind: 'not-kept', detail: kept.detail }
}

function listingOf({ record }: ShownRecord): RunNamed {
  return { runId: record.run, procedureHash: record.procedure.version }
}
