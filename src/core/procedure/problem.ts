/** Something wrong with a procedure, told to its author: where, what, and how to mend it. */
export interface Problem {
  /** Keys and indexes from the top of the document. */
  readonly path: readonly (string | number)[]
  readonly what: string
  readonly mend: string
  /** The named check that found it (`lint/named-checks.ts`); absent where only the shape is at fault. */
  readonly check?: CheckName
}

export type CheckName = 'yaml' | 'shape' | 'names' | 'step' | 'order' | 'chemicals' | 'parts' | 'translation' | 'rules'

/** A problem with its place in the author's file; lines and columns count from 1. */
export interface PlacedProblem {
  readonly line: number | null
  readonly column: number | null
  readonly what: string
  readonly mend: string
  /** Absent where the text is no YAML. */
  readonly path?: Problem['path']
  readonly check?: CheckName
}
