/** What the server keeps of procedures in the making, and of what was published here. */
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import type { ProcedureVersion } from './records.ts'

export interface Draft {
  /** Of the procedure. */
  readonly id: string
  readonly text: string
  /** Counts up with every saving, and never comes again. */
  readonly revision: number
  readonly by: string
  /** Trusted epoch ms. */
  readonly at: number
  /** Hash of the version it was begun from; null where it is of a new procedure. */
  readonly base: string | null
}

export type SavedDraft =
  | { readonly kind: 'saved'; readonly draft: Draft }
  /** Somebody else saved it meanwhile; null where it was published or thrown away. */
  | { readonly kind: 'overtaken'; readonly draft: Draft | null }

/** A warning that somebody published in spite of, and why. */
export interface KeptReason {
  readonly rule: string
  readonly what: string
  readonly reason: string
}

/** One publishing, in the page or by going back. What only came from a file has none. */
export interface Release {
  /** Over all procedures, from 1. */
  readonly number: number
  readonly id: string
  readonly hash: string
  readonly note: string
  /** Empty where the server did it by itself, because the rules of the shop had changed. */
  readonly by: string
  /** Trusted epoch ms. */
  readonly at: number
  /** Whether a newer file takes its place: it went back to what the file says. */
  readonly followsFile: boolean
  readonly reasons: readonly KeptReason[]
}

/** A procedure that is no longer offered: its versions, runs and records stay. */
export interface PutAway {
  readonly id: string
  readonly by: string
  /** Trusted epoch ms. */
  readonly at: number
}

export interface WorkshopRecords {
  /** In the order of their ids. */
  drafts(): Promise<readonly Draft[]>
  draft(id: string): Promise<Draft | null>
  /** `after` is the revision that was changed, 0 where there was none. */
  saveDraft(draft: Pick<Draft, 'id' | 'text' | 'by' | 'base'>, after: number, at: number): Promise<SavedDraft>
  /** Whether it was there with that revision, and now is not. */
  dropDraft(id: string, revision: number): Promise<boolean>
  /** Adds a version without making it the one that is offered. */
  keepVersion(version: ProcedureVersion, at: number): Promise<void>
  /** Adds a version, makes it the one that is offered, also of one that was put away, and keeps how that came about: all or nothing. */
  release(version: ProcedureVersion, release: Omit<Release, 'number' | 'id' | 'hash'>): Promise<Release>
  /** Whether it was offered, and now is not. */
  putAway(away: PutAway): Promise<boolean>
  /** In the order of their ids, called as in the version that would be offered. */
  allPutAway(): Promise<readonly (PutAway & { readonly title: Procedure['title'] })[]>
  /** The newest first. */
  releases(id: string): Promise<readonly Release[]>
  /** The newest of each procedure. */
  lastReleases(): Promise<readonly Release[]>
  /** The newest first. */
  versions(id: string): Promise<readonly { readonly hash: string; readonly publishedAt: number }[]>
  /** The author's text of a version. */
  source(hash: string): Promise<string | null>
}
