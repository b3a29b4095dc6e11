/** What has to be done how often, as a shop's supervisor writes it down. Every line says where it comes from. */
import type { Cited } from '../sanitizer/rule-set.ts'

/** When a machine that is overdue may still be used: that is for the rule to say. */
export type Otherwise = 'overdue' | 'must-not-be-used'

interface Line extends Cited {
  /** Id of the procedure. */
  readonly procedure: string
  readonly otherwise: Otherwise
}

export type Duty =
  /** Again at the latest so many seconds after it was last done. */
  | (Line & { readonly kind: 'every'; readonly everySeconds: number })
  /**
   * Once for each day of use, by a time of day (`HH:MM`, in the shop). The machine is in use from the end of one of
   * `opens` on; a shop without such procedures uses it every day.
   */
  | (Line & { readonly kind: 'day-of-use'; readonly by: string; readonly opens: readonly string[] })
  /** Before the machine is used again after one of `after` was done; ready by a time of day. */
  | (Line & { readonly kind: 'before-use'; readonly by: string; readonly after: readonly string[] })

export interface Schedule {
  readonly duties: readonly Duty[]
}

export const NO_SCHEDULE: Schedule = { duties: [] }
