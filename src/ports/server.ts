/** The shop's server as the page sees it. */
import type { TimeSample } from '../core/plan/times/time-sample.ts'
import type { Procedure } from '../core/procedure/procedure.ts'
import type { PartAge } from '../core/record/wear.ts'
import type { RunEvent } from '../core/run/event.ts'
import type { RulesOffered } from '../core/sanitizer/shop-rules.ts'

export type ServerFailure =
  /** No answer: away, or no network. Worth trying again. */
  | { readonly kind: 'unreachable' }
  /** It answered that it cannot just now, a full disk say (a problem-details body). Worth trying again once mended. */
  | { readonly kind: 'failing'; readonly status: number; readonly title: string; readonly detail: string }
  /** It answered that this will never do (a problem-details body). */
  | { readonly kind: 'rejected'; readonly status: number; readonly title: string; readonly detail: string }
  /** It answered, but not in a way this page understands. */
  | { readonly kind: 'not-understood'; readonly detail: string }

export type Answered<T> =
  | { readonly kind: 'answered'; readonly value: T }
  | { readonly kind: 'failed'; readonly failure: ServerFailure }

export interface ProcedureListing {
  readonly id: string
  readonly hash: string
  readonly title: Procedure['title']
  readonly summary: Procedure['summary']
  readonly example?: true
  readonly machine: Procedure['machine']
  readonly sides: Procedure['sides']
  /** Seconds for one pair of hands that follow the plan, in the times that the author stated; null when there is no plan. */
  readonly aboutSeconds: number | null
}

/** A procedure file that could not be used, told to whoever picks a procedure. */
export interface ProcedureFault {
  readonly file: string
  readonly problems: readonly { readonly line: number | null; readonly what: string; readonly mend: string }[]
}

export interface RunListing {
  readonly runId: string
  readonly procedureHash: string
  readonly procedureId: string
  readonly machine: string
  readonly startedAt: number
  readonly lastAt: number
  readonly operator: string
  readonly open: boolean
}

/** What became of each event sent: stored (now or before), or refused. */
export interface Receipt {
  readonly stored: readonly string[]
  readonly rejected: readonly RejectedEvent[]
}

export interface RejectedEvent {
  readonly id: string
  readonly why: string
  /**
   * `unknown-run`: the server does not have the beginning of its run; with that before it, it would be taken. Otherwise
   * never, or for a reason that only a younger page knows.
   */
  readonly because?: string | undefined
}

export interface ServerLink {
  time(): Promise<Answered<{ readonly trusted: number }>>
  procedures(): Promise<
    Answered<{ readonly procedures: readonly ProcedureListing[]; readonly faults: readonly ProcedureFault[] }>
  >
  procedure(hash: string): Promise<Answered<Procedure>>
  rules(): Promise<Answered<RulesOffered>>
  runs(): Promise<Answered<readonly RunListing[]>>
  /** How long the hands took for each step of past runs of a procedure, whichever version of it. */
  times(procedureId: string): Promise<Answered<readonly TimeSample[]>>
  /** How worn the parts of a machine are, by its name. */
  wear(machine: string): Promise<Answered<readonly PartAge[]>>
  /** Events of a run after a server position (0 for all), with the position to ask from next. */
  events(
    runId: string,
    after: number
  ): Promise<Answered<{ readonly events: readonly RunEvent[]; readonly position: number }>>
  /** Safe to send again: the server keeps one of each id. */
  send(events: readonly RunEvent[]): Promise<Answered<Receipt>>
}
