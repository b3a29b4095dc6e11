/** Procedures in the making, on the shop's server and in a thread of their own on this device. */
import type { CheckedDraft } from '../core/procedure/draft/check-draft.ts'
import type { Edit, Edited } from '../core/procedure/edit/edit.ts'
import type { Trial } from '../core/plan/trial.ts'
import type { Procedure, Text } from '../core/procedure/procedure.ts'
import type { ShopRules } from '../core/sanitizer/shop-rules.ts'
import type { Answered } from './server.ts'

export interface DraftListing {
  /** Of the procedure. */
  readonly id: string
  readonly revision: number
  readonly by: string
  /** Trusted epoch ms, here and below. */
  readonly at: number
  /** Hash of the version it was begun from; null where it is of a new procedure. */
  readonly base: string | null
}

export interface Draft extends DraftListing {
  readonly text: string
}

export interface Use {
  readonly hash: string
  readonly site: string
  readonly machine: string
  readonly runs: number
  /** Runs that are not over: they keep their version. */
  readonly open: number
  /** Of the last entry. */
  readonly lastAt: number
}

export interface Release {
  readonly number: number
  readonly hash: string
  readonly note: string
  /** Empty where the server did it by itself, because the rules of the shop had changed. */
  readonly by: string
  readonly at: number
  readonly followsFile: boolean
  readonly reasons: readonly { readonly rule: string; readonly what: string; readonly reason: string }[]
}

export interface WorkshopListing {
  readonly id: string
  readonly title: Text
  readonly machine: Text
  /** Of the version that is offered. */
  readonly hash: string
  /** Of the version that its file is; null where it has none. */
  readonly file: string | null
  readonly release: Release | null
  readonly uses: readonly Use[]
}

/** A procedure that is no longer offered; publishing any version of it offers it again. */
export interface PutAwayListing {
  readonly id: string
  readonly title: Text
  readonly by: string
  readonly at: number
}

export interface WorkshopOverview {
  readonly procedures: readonly WorkshopListing[]
  readonly drafts: readonly DraftListing[]
  readonly putAway: readonly PutAwayListing[]
}

export interface VersionListing {
  readonly hash: string
  readonly publishedAt: number
  readonly isFile: boolean
  /** The newest first; empty where it only ever came from a file. */
  readonly releases: readonly Release[]
  readonly uses: readonly Use[]
}

export interface WorkshopLink {
  overview(): Promise<Answered<WorkshopOverview>>
  draft(id: string): Promise<Answered<Draft>>
  /** `after`: the revision that was changed, 0 where there was none. Rejected with 409 where there is a newer one. */
  save(
    id: string,
    draft: { readonly text: string; readonly by: string; readonly base: string | null; readonly after: number }
  ): Promise<Answered<DraftListing>>
  drop(id: string, revision: number): Promise<Answered<unknown>>
  /**
   * `reasons`: why in spite of a warning, by the key of the finding. `instead`: the version that was looked at beside it;
   * rejected with 409 where another one is offered by now.
   */
  publish(
    id: string,
    asked: {
      readonly revision: number
      readonly note: string
      readonly reasons: Readonly<Record<string, string>>
      readonly instead: string | null
    }
  ): Promise<Answered<{ readonly release: Release }>>
  versions(id: string): Promise<Answered<{ readonly versions: readonly VersionListing[] }>>
  goBack(
    id: string,
    asked: { readonly hash: string; readonly note: string }
  ): Promise<Answered<{ readonly release: Release }>>
  /** Takes it off the list; runs that are going on and records keep it. Rejected with 404 where it is not offered. */
  putAway(id: string): Promise<Answered<unknown>>
  source(hash: string): Promise<Answered<{ readonly source: string }>>
}

/** What a draft holds: the text as plain values for a form, and what was found in it. */
export interface ReadDraft {
  /** Null while the text is no YAML. */
  readonly value: unknown
  readonly checked: CheckedDraft
}

/** Works on drafts. It may take its time: nobody waits for it between two keys. Null when it broke. */
export interface DraftBench {
  read(text: string, shop: ShopRules): Promise<ReadDraft | null>
  edit(text: string, edits: readonly Edit[]): Promise<Edited | null>
  /** Carried out in no time by a crew that is not there; `seed` makes each day another. */
  trial(procedure: Procedure, seed: number): Promise<Trial | null>
  close(): void
}
