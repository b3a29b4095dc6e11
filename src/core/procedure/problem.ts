/** Something wrong with a procedure, told to its author: where, what, and how to mend it. */
export interface Problem {
  /** Keys and indexes from the top of the document. */
  readonly path: readonly (string | number)[]
  readonly what: string
  readonly mend: string
}

/** A problem with its place in the author's file; lines and columns count from 1. */
export interface PlacedProblem {
  readonly line: number | null
  readonly column: number | null
  readonly what: string
  readonly mend: string
}
