/** What the page can show. */
import type { Course } from '../core/procedure/course.ts'
import type { RulesOffered } from '../core/sanitizer/shop-rules.ts'
import type { LogFailure } from '../ports/event-log.ts'
import type { Conductor } from './conductor.ts'
import type { LivePlan } from './live-plan.ts'
import type { OpenRun } from './open-runs.ts'
import type { PeopleDesk } from './people-desk.ts'
import type { ProceduresOffered } from './procedure-shelf.ts'
import type { PracticeRoom } from './practice-room.ts'
import type { RecordsDesk } from './records-desk.ts'
import type { RunSession } from './run-session.ts'
import type { AskedServer } from './stored-run.ts'
import type { Workshop } from './workshop/workshop.ts'

export interface Offers extends ProceduresOffered {
  readonly openRuns: readonly OpenRun[]
  /** How many runs of this device cannot be gone on with, because their beginning cannot be read. */
  readonly unreadable: number
}

export type View =
  | { readonly kind: 'choose'; readonly offers: Offers | null }
  | { readonly kind: 'gather'; readonly hash: string; readonly course: Course }
  /** Sums outside a run. `rules` is null when they could not be had. */
  | { readonly kind: 'sums'; readonly rules: RulesOffered | null }
  | { readonly kind: 'practice'; readonly room: PracticeRoom }
  | { readonly kind: 'workshop'; readonly workshop: Workshop }
  | { readonly kind: 'records'; readonly desk: RecordsDesk }
  | { readonly kind: 'people'; readonly desk: PeopleDesk }
  | {
      /** Entries of a run cannot be read: somebody has to say whether it goes on without them. */
      readonly kind: 'damaged'
      readonly run: OpenRun
      readonly course: Course
      /** How many, as far as can be told. */
      readonly lost: number
      readonly server: AskedServer
    }
  | {
      readonly kind: 'run'
      readonly session: RunSession
      readonly conductor: Conductor
      readonly plan: LivePlan
      /** Sound and screen lock wait for a tap: after a reload there has been none yet. */
      readonly needsTap: boolean
    }

/** Something that could not be done, for the person at the screen. */
export type Failure =
  | { readonly kind: 'storage'; readonly reason: LogFailure; readonly detail: string }
  | { readonly kind: 'procedure-unavailable' }
  | { readonly kind: 'run-unreadable' }
