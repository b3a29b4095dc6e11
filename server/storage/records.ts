/** What the server keeps. Asynchronous, so that a shared database can stand behind it too. */
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import type { WorkshopRecords } from './workshop-records.ts'

export interface StoredProcedure {
  /** SHA-256, lower-case hex, of the RFC 8785 form of the procedure. */
  readonly hash: string
  readonly procedure: Procedure
}

export interface ProcedureVersion extends StoredProcedure {
  /** RFC 8785 form, what was hashed. */
  readonly canonical: string
  /** The author's text. */
  readonly source: string
}

/** An event with its RFC 8785 form: two sendings are the same when these are. */
export interface IncomingEvent {
  readonly event: RunEvent
  readonly canonical: string
}

export type AddedEvents =
  | {
      readonly kind: 'added'
      /** Kept now or before. */
      readonly stored: readonly string[]
      /** An event of this id is there with other contents. */
      readonly conflicting: readonly string[]
      /** Last position of each run that got something new. */
      readonly positions: ReadonlyMap<string, number>
    }
  /** The disk is full; none of them was kept. */
  | { readonly kind: 'no-room' }

/** One entry as it stands in its site's chain; `link` is worked out in core/record/chain.ts. */
export interface ChainEntry {
  /** Over all sites, in the order they came. */
  readonly position: number
  /** Of the run's beginning; empty where that had not come yet. */
  readonly site: string
  /** Counts up from 1 in each site. */
  readonly place: number
  readonly runId: string
  readonly canonical: string
  readonly receivedAt: number
  readonly link: string
}

export interface RunRow {
  readonly runId: string
  readonly started: Extract<RunEvent, { type: 'run-started' }>
  readonly operator: string
  readonly lastAt: number
  readonly open: boolean
  readonly ended: Extract<RunEvent, { type: 'run-finished' | 'run-abandoned' }> | null
  readonly entries: number
  readonly signed: readonly Extract<RunEvent, { type: 'signed' }>[]
}

export interface TimeAnchor {
  readonly bootId: string
  /** Seconds since that boot. */
  readonly uptime: number
  /** Epoch ms. */
  readonly trusted: number
}

export interface Records extends WorkshopRecords {
  /** Adds a version, and makes it the current one of its id. A version that is there stays as it is. */
  publish(version: ProcedureVersion, at: number): Promise<void>
  /** Takes every other id off the list of current procedures. Their versions stay readable. */
  keepCurrent(ids: readonly string[]): Promise<void>
  /** Those that are offered, in the order of their ids. */
  currentProcedures(): Promise<readonly StoredProcedure[]>
  /** RFC 8785 form of a version, however old. */
  procedure(hash: string): Promise<string | null>
  /** Of these runs, those whose beginning is here. */
  begun(runIds: readonly string[]): Promise<ReadonlySet<string>>
  /** All or nothing, durable when it resolves. */
  addEvents(events: readonly IncomingEvent[], receivedAt: number): Promise<AddedEvents>
  /** Events of a run in the order they came, with the position of the last. */
  eventsAfter(
    runId: string,
    position: number
  ): Promise<{ readonly events: readonly RunEvent[]; readonly position: number }>
  /** The entries of a run, as they came. */
  chainOfRun(runId: string): Promise<readonly ChainEntry[]>
  /** The part of a site's chain from one position to another, both included. */
  chainOfSite(site: string, from: number, to: number): Promise<readonly ChainEntry[]>
  /** The link of the last entry of a site before a position; null when there is none. */
  linkBefore(site: string, position: number): Promise<string | null>
  /** How long each site's chain is, in the order of their names. */
  sites(): Promise<readonly { readonly site: string; readonly places: number }[]>
  /** The last moved first. Runs whose start has not come yet are not among them. */
  runs(limit: number): Promise<readonly RunRow[]>
  /**
   * Whether a run that is not over got an event at `receivedSince` (trusted epoch ms) or later. One whose start has not
   * come yet counts: somebody may be waiting in it.
   */
  hasOpenRuns(receivedSince: number): Promise<boolean>
  timeAnchor(): Promise<TimeAnchor | null>
  keepTimeAnchor(anchor: TimeAnchor): Promise<void>
  close(): Promise<void>
}
