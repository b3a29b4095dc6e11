/** What the operator may ask of a plan: when all is ready, and why the hands belong where they are. */
import type { LaneId } from '../procedure/procedure.ts'
import { handsOf, type Run } from '../run/run.ts'
import type { Forecast } from './forecast.ts'
import type { Late } from './lateness.ts'
import type { FinishTimes } from './times/finish-times.ts'

/** A forecast, and the moment (trusted epoch ms) that its times count from. */
export interface Outlook {
  readonly at: number
  readonly forecast: Forecast
}

/** When everything will be over, as likely as not, four times in five, and nearly always; trusted epoch ms. Null without a plan. */
export function readyTimes({ at, forecast: { finish } }: Outlook): FinishTimes | null {
  return finish && { p50: at + finish.p50, p80: at + finish.p80, p95: at + finish.p95 }
}

/** Why hands are on a lane. */
export type Reason =
  | { readonly kind: 'chosen' }
  /** This lane must go on before `before`, trusted epoch ms. */
  | { readonly kind: 'limit'; readonly before: number }
  /** Going to `lane` first would make a maximum impossible to keep. */
  | { readonly kind: 'others-late'; readonly lane: LaneId }
  /** Going to `lane` first would end the run so much later. */
  | { readonly kind: 'sooner'; readonly lane: LaneId; readonly laterMs: number; readonly wait: number | null }
  /** Any order ends as early; this one goes to and fro less. */
  | { readonly kind: 'fewer-changes' }
  /** Nothing can be done on any other lane now. */
  | { readonly kind: 'only-work' }

/** Less than this is no reason, ms. */
const WORTH_NAMING_MS = 30_000

/** Null when the plan sends the hands elsewhere, or there is none. */
export function reasonFor(run: Run, device: string, lane: LaneId, { at, forecast }: Outlook): Reason | null {
  if (forecast.planned.kind === 'fault') return null
  const { order } = forecast.planned.plan
  const mine = handsOf(run, device)
  if (mine.chosen && mine.focus === lane) return { kind: 'chosen' }
  const latest = run.lanes[lane]?.waiting?.latest ?? null
  if (latest !== null && at < latest) return { kind: 'limit', before: latest }
  if (run.crew.length < 2 && order[0]?.lane !== lane) return null
  const others = forecast.otherwise.filter((other) => other.lane !== lane)
  const late = others.find(({ misses }) => misses)
  if (late) return { kind: 'others-late', lane: late.lane }
  const worst = [...others].sort((a, b) => b.laterMs - a.laterMs)[0]
  if (!worst) return { kind: 'only-work' }
  if (worst.laterMs < WORTH_NAMING_MS) return { kind: 'fewer-changes' }
  const wait = order.find((task) => task.lane === lane && task.minMs > 0)?.minMs ?? null
  return { kind: 'sooner', lane: worst.lane, laterMs: worst.laterMs, wait }
}

/** The maximum that cannot be kept any more, if one cannot. */
export function lateIn({ forecast }: Outlook): Late | null {
  return forecast.late
}
