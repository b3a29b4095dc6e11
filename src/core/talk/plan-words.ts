/** What is said of the plan: when all is ready, why the hands are where they are, and what cannot be kept. */
import type { LaneId } from '../procedure/procedure.ts'
import { lateIn, readyTimes, reasonFor } from '../plan/outlook.ts'
import { laneName, type Told } from './call-words.ts'
import { timeOfDay } from './time-of-day.ts'

const MINUTE_MS = 60_000

export function readyWords(told: Told): readonly string[] {
  const { at, outlook, manner } = told
  const { words } = manner
  if (outlook === null) return [words.noPlanYet]
  if (outlook.forecast.planned.kind === 'fault') return [words.noPlan]
  const ready = readyTimes(outlook)
  if (ready === null) return [words.noPlanYet]
  // As on the screen: to the minute, never promised early.
  const [usual, likely, sure] = [ready.p50, ready.p80, ready.p95].map(
    (time) => Math.ceil(Math.max(time, at) / MINUTE_MS) * MINUTE_MS
  ) as [number, number, number]
  return [
    words.readyBy(clock(told, likely), words.duration(toMinute(likely - at))),
    words.readySpread(clock(told, usual), clock(told, sure))
  ]
}

/** Why the hands belong on `lane` now. */
export function whyHereWords(told: Told, lane: LaneId): readonly string[] {
  const { course, run, device, outlook, manner } = told
  const { words } = manner
  if (outlook === null) return [words.noPlanYet]
  const reason = reasonFor(run, device, lane, outlook)
  const name = laneName(course, lane, manner)
  switch (reason?.kind) {
    case undefined:
      return [words.whyNotHere]
    case 'chosen':
      return [words.whyChosen(name)]
    case 'limit':
      return [words.whyLimit(name, clock(told, reason.before))]
    case 'others-late':
      return [words.whyOthersLate(name, laneName(course, reason.lane, manner))]
    case 'sooner':
      return [
        words.whySooner(laneName(course, reason.lane, manner), words.duration(toMinute(reason.laterMs))),
        ...(reason.wait === null ? [] : [words.whyWait(name, words.duration(reason.wait))])
      ]
    case 'fewer-changes':
      return [words.whyFewerChanges]
    case 'only-work':
      return [words.whyOnlyWork]
  }
}

/** The maximum that no order keeps any more; empty where all can be kept. */
export function cannotKeepWords({ course, outlook, manner }: Told): readonly string[] {
  const late = outlook && lateIn(outlook)
  if (!late) return []
  return [manner.words.cannotKeep(laneName(course, late.lane, manner), manner.words.duration(toMinute(late.lateMs)))]
}

function clock({ run, manner }: Told, at: number): string {
  return timeOfDay(at, run.from?.zone ?? 'UTC', manner.language)
}

/** An estimate to the second would promise too much. */
function toMinute(ms: number): number {
  return ms < MINUTE_MS ? ms : Math.round(ms / MINUTE_MS) * MINUTE_MS
}
