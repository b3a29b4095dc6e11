/** Durable storage of runs on this device. */
import type { Procedure } from '../core/procedure/procedure.ts'
import type { RunEvent } from '../core/run/event.ts'
import type { RejectedEvent } from './server.ts'

export type LogFailure = 'full' | 'unavailable' | 'newer-version' | 'corrupt'
export type Kept<T> =
  | { readonly kind: 'kept'; readonly value: T }
  | { readonly kind: 'failed'; readonly reason: LogFailure; readonly detail: string }

export interface PinnedProcedure {
  readonly hash: string
  readonly procedure: Procedure
}

/** Last trusted time seen, so that a reload goes on from it. */
export interface TimeMark {
  readonly trusted: number
  readonly wall: number
  /** The server's time at its last answer; null or missing when it never answered. */
  readonly confirmedAt?: number | null
}

export type EntriesLost = Extract<RunEvent, { type: 'entries-lost' }>

/**
 * A stored row can become one that cannot be read. It is never deleted: where a sound copy of it comes, or somebody goes
 * on without it, it is moved aside.
 */
export interface EventLog {
  /** Strictly durable when it resolves as kept: all events and their outbox rows, or nothing. Same id twice is one; it takes the place of a damaged one. */
  append(events: readonly RunEvent[]): Promise<Kept<void>>
  /** Events that another device sent through the server: kept, but not put in the outbox. */
  receive(events: readonly RunEvent[]): Promise<Kept<void>>
  /** In the agreed order. `corrupt` when any event of the run is damaged: a run with a hole must not pass for whole. */
  read(runId: string): Promise<Kept<readonly RunEvent[]>>
  /** How many events of a run there are, damaged ones too: quick, so that a command need not read them all again. */
  count(runId: string): Promise<Kept<number>>
  /** What can still be read of a corrupt run, and the ids of what cannot. Nothing is removed from storage. */
  salvage(runId: string): Promise<Kept<{ readonly events: readonly RunEvent[]; readonly damaged: readonly string[] }>>
  /** Goes on without the damaged events that `loss` names, and keeps `loss` like any event: both, or nothing. */
  setAside(loss: EntriesLost): Promise<Kept<void>>
  /** Ids of runs on this device, newest first. */
  runs(): Promise<Kept<readonly string[]>>
  /** Oldest first. A damaged one moves to the rejections, so that it cannot hold up those behind it. */
  unsent(limit: number): Promise<Kept<readonly RunEvent[]>>
  /** Only the server's word takes an event out of the outbox. */
  sent(ids: readonly string[]): Promise<Kept<void>>
  /**
   * The server has lost a run, or never had it: all of it that is sound here goes into the outbox anew, from its beginning
   * on, except for signatures, which only the server makes. False when its beginning is not here; then nothing changes.
   */
  sendAgain(runId: string): Promise<Kept<boolean>>
  /**
   * The server does not take it: out of the outbox, onto a list that people can see. One of a run that it does not know
   * goes back into the outbox when the beginning of that run comes to this device.
   */
  rejected(event: RejectedEvent): Promise<Kept<void>>
  rejections(): Promise<Kept<readonly RejectedEvent[]>>
  keepProcedure(pinned: PinnedProcedure): Promise<Kept<void>>
  procedure(hash: string): Promise<Kept<PinnedProcedure | null>>
  keepMark(mark: TimeMark): Promise<Kept<void>>
  mark(): Promise<Kept<TimeMark | null>>
  /** A small value of this device, such as its id or a setting. */
  keepSetting(key: string, value: string): Promise<Kept<void>>
  setting(key: string): Promise<Kept<string | null>>
  /** Told when another tab of this browser has written to the log. */
  onElsewhere(tell: (runId: string) => void): () => void
  close(): void
}
