/** What happened in a run. Events are only ever added; everything else is recomputed from them. */
import type { LaneId, ReadingUnit } from '../procedure/procedure.ts'

/** How the operator's command arrived. `app` marks what the program itself noticed, such as a moved clock. */
export type Via = 'voice' | 'touch' | 'key' | 'typed' | 'app'

export type Answer =
  | { readonly kind: 'yes-no'; readonly value: 'yes' | 'no' }
  | { readonly kind: 'reading'; readonly value: number; readonly unit: ReadingUnit }
  | { readonly kind: 'count'; readonly value: number }

/** One step on one lane in one round of its repeat-until (rounds count from 1). */
export interface StepRef {
  readonly lane: LaneId
  readonly step: string
  readonly round: number
}

export type Confirmation = 'everyday' | 'phrase' | 'held'

/** What a signature stands for: 21 CFR 11.50(a)(3) names these four. */
export const MEANINGS = ['authorship', 'responsibility', 'review', 'approval'] as const
export type Meaning = (typeof MEANINGS)[number]

export type RefusalReason =
  | 'wait-not-over'
  | 'needs-caution'
  | 'needs-confirmation'
  | 'needs-answer'
  | 'needs-correction'
  | 'lane-at-barrier'
  | 'tool-in-use'
  | 'lane-finished'
  | 'paused'
  | 'nothing-to-take-back'
  | 'not-asked'
  | 'unknown-lane'
  | 'wrong-kind-of-answer'
  | 'in-other-hands'
  | 'only-hands'
  | 'not-started'
  | 'run-over'

/** Whose name it is, when it was chosen from the shop's people. A name without it was typed. */
export interface GivenName {
  readonly person: string
  /** The server's check of that person's PIN; null when it could not be asked, or no PIN was given. */
  readonly check: string | null
}

export interface SpokenLine {
  readonly who: 'sidecall' | 'operator'
  /** Trusted epoch ms. */
  readonly at: number
  /** Null where something was heard that meant nothing. */
  readonly text: string | null
}

export type RunFact =
  | {
      readonly type: 'run-started'
      readonly procedureId: string
      readonly procedureHash: string
      readonly site: string
      readonly machine: string
      /** IANA zone the shop keeps its hours in. */
      readonly zone: string
      readonly who?: GivenName
    }
  | ({ readonly type: 'caution-acknowledged' } & StepRef)
  | ({ readonly type: 'step-done'; readonly confirmation: Confirmation } & StepRef)
  | ({ readonly type: 'check-answered'; readonly answer: Answer; readonly good: boolean } & StepRef)
  | ({ readonly type: 'wait-acknowledged' } & StepRef)
  /** `cancels` is the id of the event that no longer counts; it stays in the log. */
  | { readonly type: 'taken-back'; readonly cancels: string }
  | {
      readonly type: 'refused'
      readonly command: string
      readonly lane: LaneId | null
      readonly step: string | null
      readonly reason: RefusalReason
      /** For `wait-not-over`: milliseconds that were still to wait. */
      readonly remainingMs: number | null
    }
  | { readonly type: 'paused' }
  | { readonly type: 'resumed' }
  | { readonly type: 'handed-over'; readonly to: string; readonly who?: GivenName }
  | { readonly type: 'problem-reported'; readonly lane: LaneId; readonly text: string }
  | { readonly type: 'corrected'; readonly lane: LaneId; readonly action: string; readonly redo: string | null }
  /** The operator asked for this lane. */
  | { readonly type: 'lane-chosen'; readonly lane: LaneId }
  /** The voice sent the hands here. They stay until the lane waits, whatever else comes free meanwhile. */
  | { readonly type: 'lane-called'; readonly lane: LaneId }
  /** The lane still waits, but the hands are told to begin nothing else before it needs them. */
  | { readonly type: 'rest-called'; readonly lane: LaneId; readonly until: number }
  /** Another pair of hands, spoken to by the device of this event. */
  | { readonly type: 'joined'; readonly name: string; readonly who?: GivenName }
  /** A pair of hands is no longer there; `hands` is its device. */
  | { readonly type: 'left'; readonly hands: string }
  | { readonly type: 'clock-moved'; readonly byMs: number }
  /**
   * The server showed that this device's trusted time lagged behind by up to `byMs` (was ahead, when negative): the
   * waits that it has begun since `since` are due as much later. See `catchUp` in core/time.
   */
  | { readonly type: 'clock-caught-up'; readonly since: number; readonly byMs: number }
  /**
   * Entries could no longer be read on this device, and somebody chose to go on without them. `ids` are the damaged
   * ones; `gaps` is how many places in this device's own count were empty (those of damaged ones of its own included).
   */
  | { readonly type: 'entries-lost'; readonly ids: readonly string[]; readonly gaps: number }
  | { readonly type: 'run-finished' }
  | { readonly type: 'run-abandoned'; readonly reason: string }
  /** About the record of a run, in the middle of it or long after. `field` is one of core/record/note-fields or a younger one. */
  | { readonly type: 'noted'; readonly field: string; readonly value: string }
  /** New ones were put in; `lane` is the side they belong to, or the whole machine. While the run goes on it can be taken back. */
  | { readonly type: 'part-replaced'; readonly part: string; readonly lane: LaneId; readonly pieces: number }
  /** What `entry` answered was written down wrong. The run went by what was answered; the record shows both. */
  | {
      readonly type: 'amended'
      readonly entry: string
      readonly was: Answer
      readonly now: Answer
      readonly reason: string
    }
  /** What was said and heard at one device since the piece before, in order. It changes nothing of the run. */
  | { readonly type: 'spoken'; readonly lines: readonly SpokenLine[] }
  /**
   * Made by the server alone. `entries` of the run were there; `head` is the link of its last one in the chain. `person`
   * is the account that signed, with its password; older entries have none.
   */
  | {
      readonly type: 'signed'
      readonly meaning: Meaning
      readonly entries: number
      readonly head: string
      readonly person?: string
    }
  /** Made by the server alone: the PIN behind the name that `entry` gives was right. */
  | { readonly type: 'name-checked'; readonly entry: string; readonly person: string }

export interface Envelope {
  /** UUIDv7 (RFC 9562). */
  readonly id: string
  readonly runId: string
  /** Trusted time in epoch ms: never goes back on a device, and does not follow a moved clock. */
  readonly at: number
  /** What the device's own clock said, epoch ms. */
  readonly deviceAt: number
  readonly device: string
  /** Counts up from 1 on each device within a run. */
  readonly seq: number
  readonly by: string
  readonly via: Via
}

export type RunEvent = Envelope & RunFact

/** The order every device agrees on: trusted time, then device, then its own count. */
export function compareEvents(a: Envelope, b: Envelope): number {
  return a.at - b.at || (a.device < b.device ? -1 : a.device > b.device ? 1 : a.seq - b.seq)
}
