/** The limits of a jurisdiction or of a product label, as data. Every limit says where it comes from. */

/** What is judged. The words in the files are in rule-set-format.ts. */
export const SUBJECTS = [
  'chlorine',
  'iodine',
  'quat',
  'hot-water',
  'hot-water-machine',
  'cold-holding',
  'handwash-water',
  'wash-water',
  'heat-treatment',
  'rinse'
] as const
export type Subject = (typeof SUBJECTS)[number]

export const AGENTS = ['chlorine', 'iodine', 'quat'] as const satisfies readonly Subject[]
export type Agent = (typeof AGENTS)[number]

/** Limits of one aspect stand in for each other from rule set to rule set; limits of different aspects add up. */
export const ASPECTS = ['solution', 'contact', 'cap', 'temperature', 'look'] as const
export type Aspect = (typeof ASPECTS)[number]

/**
 * How far the figure was checked: seen in the rule's own text, in a text that adopts it, in a secondary page, or only
 * recalled.
 */
export const STATUSES = ['read', 'adopted-text', 'secondary', 'memory'] as const
export type Status = (typeof STATUSES)[number]

export interface Cited {
  readonly source: string
  readonly edition: string
  readonly status: Status
}

/** A bound is inclusive; null where there is none. */
export interface Bounds {
  readonly min: number | null
  readonly max: number | null
}

/** ppm; pH; mg/L of calcium carbonate; s. */
export const PLAIN_QUANTITIES = ['ppm', 'ph', 'hardness', 'seconds'] as const
export type PlainQuantity = (typeof PLAIN_QUANTITIES)[number]
export type Quantity = PlainQuantity | 'temperature' | 'clear'

/** Codes print both scales, rounded; each scale is held to its own figure. One that is null is worked out from the other. */
export type Demand =
  | ({ readonly quantity: PlainQuantity } & Bounds)
  | { readonly quantity: 'temperature'; readonly C: Bounds | null; readonly F: Bounds | null }
  | { readonly quantity: 'clear' }

/** All demands of a row must be met. */
export type Row = readonly Demand[]

export interface Limit extends Cited {
  readonly subject: Subject
  readonly aspect: Aspect
  /** One of these is enough. */
  readonly rows: readonly Row[]
  /** Where the label has a figure of its own for these, it counts instead. */
  readonly labelMaySet: readonly Quantity[]
  /** These are left to the label, so without its figure nothing can be judged. */
  readonly labelMustSet: readonly Quantity[]
}

/** Something the rule asks for that no reading shows. */
export interface Duty extends Cited {
  readonly say: string
  /** The longest time between two, in seconds; null where the rule gives none. */
  readonly everySeconds: number | null
}

export const FORMS = ['liquid', 'powder', 'tablet'] as const
export const CONVENTIONS = ['weight', 'trade', 'available'] as const
/**
 * What a label percent means. weight: of the compound, by weight. trade: grams available in 100 mL. available: of what
 * is available, by weight. unstated: the label does not say.
 */
export type Convention = (typeof CONVENTIONS)[number] | 'unstated'

export type Product =
  | {
      readonly form: 'liquid'
      readonly agent: Agent
      readonly percent: number
      readonly convention: Convention
      /** kg/L; null where the label does not say. */
      readonly density: number | null
    }
  /** Percent available, by weight. */
  | { readonly form: 'powder'; readonly agent: Agent; readonly percent: number }
  /** Milligrams available in one tablet. */
  | { readonly form: 'tablet'; readonly agent: Agent; readonly milligrams: number }

export interface RuleSet {
  readonly id: string
  readonly kind: 'jurisdiction' | 'label'
  readonly title: string
  /** The rule set that holds for aspects of which this one says nothing. */
  readonly otherwise: string | null
  readonly limits: readonly Limit[]
  readonly duties: readonly Duty[]
  readonly product: Product | null
}
