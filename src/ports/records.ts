/** The records on the shop's server, for whoever looks at them, signs them, or wants to know what is due. */
import type { DutyDue } from '../core/due/due-now.ts'
import type { LaneId, Text } from '../core/procedure/procedure.ts'
import type { Review } from '../core/record/review.ts'
import type { Trends } from '../core/record/trends.ts'
import type { Meaning } from '../core/run/event.ts'
import type { Answered } from './server.ts'

export interface RecordListing {
  readonly runId: string
  readonly procedureId: string
  readonly procedureHash: string
  /** Null where the server does not have that version. */
  readonly title: Text | null
  readonly site: string
  readonly machine: string
  readonly zone: string
  readonly operator: string
  /** Trusted epoch ms, here and below. */
  readonly startedAt: number
  readonly endedAt: number | null
  readonly status: 'open' | 'complete' | 'ended-early'
  readonly review: Review
  readonly entries: number
}

export interface WearDue {
  readonly machine: string
  readonly part: Text
  readonly lane: LaneId
  readonly worn: 'soon' | 'due'
  readonly since: number
  /** Somebody entered it; else it counts from the first record. */
  readonly isKnown: boolean
  readonly runs: number
}

export interface DueList {
  readonly duties: readonly DutyDue[]
  readonly wear: readonly WearDue[]
}

/** In the name of whoever is signed in, and has just given the password. */
export interface Signing {
  readonly meaning: Meaning
  /** How many entries the record had that was looked at. */
  readonly entries: number
}

export interface RecordsLink {
  /** The last begun first; `more` is how many older ones there are. */
  list(): Promise<Answered<{ readonly records: readonly RecordListing[]; readonly more: number }>>
  /** `zone` is used where no record says one. */
  due(zone: string): Promise<Answered<DueList>>
  /** Of one machine; of all when it is empty. */
  trends(machine: string): Promise<Answered<Trends>>
  sign(runId: string, signing: Signing): Promise<Answered<{ readonly signed: string }>>
}
