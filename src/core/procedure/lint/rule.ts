/** A named rule for authors. It finds places in a procedure that can be read, and may still do harm or fail at work. */
import type { Problem } from '../problem.ts'
import type { Procedure } from '../procedure.ts'

export interface Rule {
  readonly id: string
  /** An error keeps a version from being published; a warning asks for a reason, which is kept. */
  readonly weight: 'error' | 'warning'
  /** Why it matters, for the author. */
  readonly reason: string
  /** Published source, or "common practice, no source". */
  readonly source: string
  readonly find: (procedure: Procedure) => readonly Problem[]
}

export interface Finding extends Problem {
  readonly rule: Rule
}
