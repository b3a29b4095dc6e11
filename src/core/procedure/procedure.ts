/**
 * A procedure as the program uses it: parsed, checked, plain JSON. Its canonical form is what gets hashed. Keys that may be
 * absent are younger than the first published versions, which must stay readable.
 */
import type { ChemicalFamily } from '../sanitizer/chemical-order.ts'

/** BCP 47 tag, for example `en` or `es`. */
export type Language = string

/** The same words in one or more languages; every text of a procedure has all of the procedure's languages. */
export type Text = Readonly<Record<Language, string>>

/** Side ids come from the procedure; `bench` and `machine` are reserved. */
export type LaneId = string
export const BENCH: LaneId = 'bench'
export const MACHINE: LaneId = 'machine'

export interface Side {
  readonly id: LaneId
  readonly name: Text
}

/** Something only so many lanes can hold at once, such as the one pail under the spouts. */
export interface Tool {
  readonly id: string
  readonly name: Text
  readonly count: number
}

/** A loose part. `care` says what assembly does with it; greasing the wrong part is a fault of its own. */
export interface Part {
  readonly id: string
  readonly name: Text
  readonly per: 'side' | 'machine'
  readonly count: number
  readonly care: 'grease' | 'dry' | 'clean'
  /** It wears out: replaced after so many days or runs, whichever comes first. */
  readonly wear?: Wear
}

/** At least one of the two is there. */
export interface Wear {
  readonly days: number | null
  readonly runs: number | null
}

/** Amounts appear in texts as `{7.6 L | 2 gal}`: metric first, US second. */
export interface Supply {
  readonly id: string
  readonly name: Text
  readonly amount: Text
  readonly per: 'side' | 'machine'
}

export interface Solution {
  readonly id: string
  readonly name: Text
  readonly amount: Text
  readonly per: 'side' | 'machine'
  /** How it is made up and where the strength comes from; the product label always comes first. */
  readonly directions: Text
  /** What it must not meet. */
  readonly chemical?: ChemicalFamily
}

/** ANSI Z535.4 signal words, most severe first. */
export const SIGNAL_WORDS = ['danger', 'warning', 'caution', 'notice'] as const
export type SignalWord = (typeof SIGNAL_WORDS)[number]

export interface Caution {
  readonly signal: SignalWord
  readonly hazard: Text
  readonly consequence: Text
  readonly avoid: Text
}

export const WAIT_KINDS = ['agitation', 'contact', 'soak', 'drain', 'dry', 'freeze', 'settle'] as const
export type WaitKind = (typeof WAIT_KINDS)[number]

/** Time that must pass on a lane with no hands, counted from the end of its step. */
export interface Wait {
  readonly kind: WaitKind
  readonly minSeconds: number
  readonly maxSeconds: number | null
  /** Where the limit comes from; shown beside it. */
  readonly source: Text
  /** What to do when the maximum is missed; without it the operator says what was done. */
  readonly late: { readonly say: Text; readonly redo: string } | null
  /** A subject of the rule sets: the shop's rules may lengthen its contact time. */
  readonly of?: string
}

export const READING_KINDS = ['strength', 'temperature', 'ph'] as const
export type ReadingKind = (typeof READING_KINDS)[number]
/** UCUM codes, a closed list. */
export const READING_UNITS = ['[ppm]', 'Cel', '[degF]', '[pH]'] as const
export type ReadingUnit = (typeof READING_UNITS)[number]

/** Inclusive; null where there is none. */
export interface Bound {
  readonly unit: ReadingUnit
  readonly min: number | null
  readonly max: number | null
}

/**
 * A limit of the shop's rule set or label that a reading is held to, besides the author's own. One row is enough; in
 * a row each quantity must be within its bounds, which stand in every unit it can be read in.
 */
export interface HeldTo {
  /** Of the rule set or label. */
  readonly title: string
  /** Section, edition, and how far the figure was checked. */
  readonly source: string
  readonly rows: readonly (readonly (readonly Bound[])[])[]
}

export type Check =
  | { readonly kind: 'yes-no'; readonly ask: Text; readonly good: 'yes' | 'no'; readonly corrections: readonly Text[] }
  | {
      readonly kind: 'reading'
      readonly ask: Text
      readonly reading: ReadingKind
      readonly unit: ReadingUnit
      readonly min: number | null
      readonly max: number | null
      readonly source: Text
      readonly corrections: readonly Text[]
      /** A subject of the rule sets; readings of one subject that follow each other are of one batch. */
      readonly of?: string
      readonly heldTo?: readonly HeldTo[]
    }
  | {
      readonly kind: 'count'
      readonly ask: Text
      readonly parts: readonly string[]
      /** Whether the parts have come off or have gone on again. */
      readonly going?: 'off' | 'on'
      readonly corrections: readonly Text[]
    }

/** A yes-no step with a repeat sends its lane back to `from` until the answer is good. */
export interface Repeat {
  readonly from: string
  readonly atLeast: number
  readonly atMost: number
}

/** What a step does to what lies on its place: every side and the bench, at a whole-machine step. */
export type Chemistry =
  | { readonly kind: 'use'; readonly solutions: readonly string[] }
  /** Potable water over everything, and all of it drained. */
  | { readonly kind: 'full-rinse' }

export type Place =
  | { readonly kind: 'sides'; readonly sides: readonly LaneId[] }
  | { readonly kind: 'bench' }
  | { readonly kind: 'machine' }

export interface Step {
  readonly id: string
  readonly on: Place
  /** The spoken headline: verb first, one action. */
  readonly say: Text
  readonly more: Text | null
  readonly why: Text | null
  readonly handsSeconds: number
  readonly cautions: readonly Caution[]
  /** A phrase the operator must say whole (or hold the key for); null when the everyday word is enough. */
  readonly confirm: Text | null
  readonly wait: Wait | null
  readonly check: Check | null
  readonly repeat: Repeat | null
  /** Tools this lane must have from the start of the step on; `frees` puts tools back at its end. A wait keeps what is not freed. */
  readonly takes: readonly string[]
  readonly frees: readonly string[]
  readonly chemistry?: Chemistry
}

export interface Stage {
  readonly title: Text
  readonly steps: readonly Step[]
}

export interface Procedure {
  readonly id: string
  readonly title: Text
  readonly summary: Text
  /** Written for an invented machine. */
  readonly example?: true
  readonly languages: readonly Language[]
  /** What it is called where it stands; records, wear and what is due go by this name. */
  readonly machine: Text
  /** What somebody must know of it before the start. */
  readonly aboutMachine?: Text
  readonly sides: readonly Side[]
  readonly tools: readonly Tool[]
  readonly parts: readonly Part[]
  readonly supplies: readonly Supply[]
  readonly solutions: readonly Solution[]
  readonly stages: readonly Stage[]
}
