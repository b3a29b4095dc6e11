/**
 * The record of a run: what an inspector asks for, computed from its events. Nothing in it is stored as truth. Instants
 * are trusted epoch ms unless they say otherwise. Where each field comes from is in field-set.ts.
 */
import type { HeldTo, LaneId, ReadingUnit, Text, WaitKind } from '../procedure/procedure.ts'
import type { Answer, Confirmation, Meaning, RefusalReason, RunEvent, SpokenLine, Via } from '../run/event.ts'

import type { PlannedTimes } from './planned-times.ts'
import type { Review } from './review.ts'

/** Who made an entry, when by trusted time and by the device's own clock, and how it was told. */
export interface Entry {
  readonly id: string
  readonly at: number
  readonly deviceAt: number
  readonly device: string
  readonly by: string
  readonly via: Via
}

export interface OnLane extends Entry {
  readonly lane: LaneId
  readonly step: string
  readonly round: number
}

export interface StepRow extends OnLane {
  readonly say: Text
  readonly plannedSeconds: number
  /** See planned-times.ts. */
  readonly planned: PlannedTimes | null
  /** When the hands began; null where something broke into the step, so that nobody can say. It ended when it was told. */
  readonly from: number | null
  /** Without pauses; null where `from` is. */
  readonly actualSeconds: number | null
  /** Null for a step that ends in an answer. */
  readonly confirmation: Confirmation | null
  /** Taken back later: it does not count, and stays in the record. */
  readonly takenBack: boolean
}

export interface WaitRow {
  readonly lane: LaneId
  readonly step: string
  readonly round: number
  readonly kind: WaitKind
  /** Why it has to be as long as it is. */
  readonly source: Text
  readonly by: string
  readonly since: number
  readonly minSeconds: number
  readonly maxSeconds: number | null
  readonly due: number
  /** Of the step that it follows. */
  readonly planned: PlannedTimes | null
  /** When hands came back to the lane; null while it runs. */
  readonly endedAt: number | null
  readonly actualSeconds: number | null
  /** `begun-anew`: the lane was sent back before the wait was over, so that it had to be kept from the start again. */
  readonly result: 'kept' | 'running' | 'begun-anew' | 'too-long'
}

export interface Amendment extends Entry {
  readonly was: Answer
  readonly now: Answer
  readonly reason: string
  /** Whether the answer as it should have been is within what was asked. */
  readonly good: boolean
}

export interface CheckRow extends OnLane {
  readonly ask: Text
  readonly answer: Answer
  readonly good: boolean
  /** What the author of the procedure asks of a reading; null for other answers. */
  readonly limits: {
    readonly min: number | null
    readonly max: number | null
    readonly unit: ReadingUnit
    readonly source: Text
  } | null
  /** For a count: how many pieces there had to be. */
  readonly expected: number | null
  /** The rule of the shop that decided, or that is still open; null where none was published with the procedure. */
  readonly rule: { readonly kind: 'met' | 'broken' | 'open'; readonly heldTo: HeldTo | null } | null
  readonly takenBack: boolean
  readonly amendments: readonly Amendment[]
}

export interface CorrectionRow extends Entry {
  readonly lane: LaneId
  readonly action: string
  readonly because: 'bad-answer' | 'too-many-rounds' | 'problem' | 'late' | 'entries-lost'
  /** The bad answer, and the one that came after it was put right. */
  readonly old: Answer | null
  readonly anew: Answer | null
}

export interface RefusedRow extends Entry {
  readonly command: string
  readonly lane: LaneId | null
  readonly step: string | null
  readonly reason: RefusalReason
  /** What was still to wait, ms; null unless somebody tried to cut a wait short. */
  readonly remainingMs: number | null
}

export interface Interruption {
  readonly by: string
  readonly from: number
  readonly to: number | null
}

/** How a name is known: its PIN checked by the server, chosen from the shop's people and not checked, or typed. */
export type NameKnown = 'checked' | 'chosen' | 'typed'

export interface CrewRow extends Entry {
  readonly kind: 'began' | 'joined' | 'left' | 'handed-over'
  readonly name: string
  /** Null where nobody gave a name. */
  readonly known: NameKnown | null
}

export interface ProblemRow extends Entry {
  readonly lane: LaneId
  readonly text: string
}

export interface NoteRow extends Entry {
  readonly field: string
  readonly value: string
  /** What the field said before; null for the first note, and for remarks, which stand beside each other. */
  readonly was: string | null
}

export interface ReplacedRow extends Entry {
  readonly part: string
  readonly name: Text
  readonly lane: LaneId
  readonly pieces: number
}

export interface SignatureRow extends Entry {
  readonly meaning: Meaning
  readonly entries: number
  readonly head: string
  /** Nothing was entered after it but further signatures. */
  readonly coversAll: boolean
}

/** As it stood on the screen, and as far as it was understood. */
export interface SaidRow {
  readonly at: number
  readonly device: string
  /** Whose hands the device spoke to. */
  readonly by: string
  readonly who: SpokenLine['who']
  readonly text: string | null
}

export interface DeviceClock {
  readonly device: string
  readonly entries: number
  /** Device time less trusted time, ms: the least and the most. */
  readonly leastSkewMs: number
  readonly mostSkewMs: number
}

export type ClockRow = Entry &
  ({ readonly kind: 'moved'; readonly byMs: number } | { readonly kind: 'caught-up'; readonly byMs: number })

export interface LostRow extends Entry {
  readonly lost: number
}

export interface RunRecord {
  readonly run: string
  readonly site: string
  readonly machine: string
  /** IANA zone of the shop. */
  readonly zone: string
  readonly procedure: {
    readonly id: string
    readonly version: string
    readonly title: Text
    /** Written for an invented machine. */
    readonly isExample: boolean
  }
  readonly sides: readonly { readonly id: LaneId; readonly name: Text }[]
  readonly solutions: readonly { readonly name: Text; readonly amount: Text; readonly directions: Text }[]
  readonly operators: readonly string[]
  readonly startedAt: number
  readonly endedAt: number | null
  readonly status: 'open' | 'complete' | 'ended-early'
  readonly endedBecause: string | null
  readonly steps: readonly StepRow[]
  readonly waits: readonly WaitRow[]
  readonly checks: readonly CheckRow[]
  readonly corrections: readonly CorrectionRow[]
  readonly refused: readonly RefusedRow[]
  readonly takenBack: readonly (Entry & { readonly cancels: string })[]
  readonly interruptions: readonly Interruption[]
  readonly crew: readonly CrewRow[]
  readonly problems: readonly ProblemRow[]
  readonly notes: readonly NoteRow[]
  readonly replaced: readonly ReplacedRow[]
  readonly said: readonly SaidRow[]
  readonly clocks: readonly DeviceClock[]
  readonly clockNotes: readonly ClockRow[]
  readonly lost: readonly LostRow[]
  /** Entries that did not fit when they came, such as a step that another device had done already. */
  readonly setAside: readonly (Entry & { readonly type: RunEvent['type'] })[]
  readonly signatures: readonly SignatureRow[]
  readonly review: Review
  /** How many entries there are, of every kind. */
  readonly entries: number
}

export function entryOf({ id, at, deviceAt, device, by, via }: Entry): Entry {
  return { id, at, deviceAt, device, by, via }
}
