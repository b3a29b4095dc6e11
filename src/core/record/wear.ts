/** How worn the parts of a machine are, from what its runs say. */
import type { LaneId, Procedure, Wear } from '../procedure/procedure.ts'
import { wearPlaces, type WearPlace } from '../procedure/wear-places.ts'
import type { RunEvent } from '../run/event.ts'

/** What one run of a machine tells. */
export interface WearInRun {
  /** Trusted epoch ms of its start. */
  readonly startedAt: number
  /** It went to its end: the parts were in use. */
  readonly isFinished: boolean
  /** Places of wearing parts in the version that was carried out. */
  readonly places: readonly PartPlace[]
  readonly replaced: readonly (PartPlace & { readonly at: number })[]
}

export interface PartPlace {
  readonly part: string
  readonly lane: LaneId
}

/** A part in its place, since it was new. */
export interface PartAge extends PartPlace {
  /** Trusted epoch ms; where nobody has said that it was replaced, of the first run that used it. */
  readonly since: number
  readonly isKnown: boolean
  /** Finished runs since then, of whatever procedure has the part. */
  readonly runs: number
}

export function wearInRun(procedure: Procedure, events: readonly RunEvent[]): WearInRun {
  const cancelled = new Set(events.flatMap((event) => (event.type === 'taken-back' ? [event.cancels] : [])))
  return {
    startedAt: events.find(({ type }) => type === 'run-started')?.at ?? 0,
    isFinished: events.some(({ type }) => type === 'run-finished'),
    places: wearPlaces(procedure).map(({ part, lane }) => ({ part: part.id, lane })),
    replaced: events.flatMap((event) =>
      event.type === 'part-replaced' && !cancelled.has(event.id)
        ? [{ part: event.part, lane: event.lane, at: event.at }]
        : []
    )
  }
}

/** Of every wearing part that any of the runs knows. Runs may come in any order. */
export function partAges(runs: readonly WearInRun[]): readonly PartAge[] {
  const places = new Map(runs.flatMap((run) => run.places.map((place) => [keyOf(place), place])))
  return [...places].map(([key, { part, lane }]) => {
    const having = runs.filter((run) => run.places.some((place) => keyOf(place) === key))
    const replacedIn = (run: WearInRun) => run.replaced.filter((place) => keyOf(place) === key).map(({ at }) => at)
    const replacedAt = Math.max(-Infinity, ...having.flatMap(replacedIn))
    const isKnown = replacedAt > -Infinity
    const since = isKnown ? replacedAt : Math.min(...having.map(({ startedAt }) => startedAt))
    // In the run it was put in, the new part has not been cleaned yet: that one counts for the old.
    const finished = having.filter((run) => run.isFinished && run.startedAt >= since && replacedIn(run).length === 0)
    return { part, lane, since, isKnown, runs: finished.length }
  })
}

export type Worn = 'fine' | 'soon' | 'due'

/** From this share of its life on a new one should be at hand. */
const SOON = 0.9
const DAY_MS = 86_400_000

/** The nearer of its two limits counts. A part of unknown age is as old as the records say, at least. */
export function wornness({ days, runs }: Wear, age: Pick<PartAge, 'since' | 'runs'>, now: number): Worn {
  const used = Math.max(days === null ? 0 : (now - age.since) / (days * DAY_MS), runs === null ? 0 : age.runs / runs)
  return used >= 1 ? 'due' : used >= SOON ? 'soon' : 'fine'
}

export interface WornPart extends WearPlace {
  readonly worn: 'soon' | 'due'
  readonly age: PartAge
}

/** The parts of a procedure that should be replaced now or soon, the due ones first. */
export function wornParts(
  procedure: Pick<Procedure, 'parts' | 'sides'>,
  ages: readonly PartAge[],
  now: number
): readonly WornPart[] {
  return wearPlaces(procedure)
    .flatMap((place): readonly WornPart[] => {
      const age = ages.find(({ part, lane }) => part === place.part.id && lane === place.lane)
      const worn = age ? wornness(place.wear, age, now) : 'fine'
      return age && worn !== 'fine' ? [{ ...place, worn, age }] : []
    })
    .toSorted((one, other) => Number(other.worn === 'due') - Number(one.worn === 'due'))
}

/** Both are names that may hold anything. */
function keyOf({ part, lane }: PartPlace): string {
  return JSON.stringify([part, lane])
}
