/** The shape of events as they travel and are stored; checked wherever they come in. */
import * as v from 'valibot'
import { MEANINGS, type RunEvent } from '../run/event.ts'

/** What the server takes in one request. */
export const MOST_EVENTS_AT_ONCE = 500
export const MOST_BYTES_AT_ONCE = 1024 * 1024
/** What one entry can say was lost, so that it still fits into a request. Who lost more says so again. */
export const MOST_LOST_AT_ONCE = 5000
const MOST_LINES_AT_ONCE = 100

/** Half of a surrogate pair has no UTF-8 form, and so neither a canonical form nor a hash. */
const string = v.pipe(v.string(), v.regex(/^\P{Surrogate}*$/u, 'half a character'))
const id = v.pipe(string, v.minLength(1), v.maxLength(100))
const words = v.pipe(string, v.maxLength(2000))
const time = v.pipe(v.number(), v.finite(), v.minValue(0), v.maxValue(8.64e15))
const count = v.pipe(v.number(), v.integer(), v.minValue(1))
const unit = v.picklist(['[ppm]', 'Cel', '[degF]', '[pH]'])

const envelope = {
  id,
  runId: id,
  at: time,
  deviceAt: time,
  device: id,
  seq: count,
  by: words,
  via: v.picklist(['voice', 'touch', 'key', 'typed', 'app'])
}
/** With its keys in order, so that what was read needs no sorting before it is hashed. */
const anEvent = <const Entries extends v.ObjectEntries>(entries: Entries) => {
  const all = { ...envelope, ...entries }
  return v.strictObject(Object.fromEntries(Object.entries(all).sort(([a], [b]) => (a < b ? -1 : 1))) as typeof all)
}
const stepRef = { lane: id, step: id, round: count }

const answer = v.variant('kind', [
  v.strictObject({ kind: v.literal('yes-no'), value: v.picklist(['yes', 'no']) }),
  v.strictObject({ kind: v.literal('reading'), value: v.pipe(v.number(), v.finite()), unit }),
  v.strictObject({ kind: v.literal('count'), value: v.pipe(v.number(), v.integer(), v.minValue(0)) })
])

const refusalReason = v.picklist([
  'wait-not-over',
  'needs-caution',
  'needs-confirmation',
  'needs-answer',
  'needs-correction',
  'lane-at-barrier',
  'tool-in-use',
  'lane-finished',
  'paused',
  'nothing-to-take-back',
  'not-asked',
  'unknown-lane',
  'wrong-kind-of-answer',
  'in-other-hands',
  'only-hands',
  'not-started',
  'run-over'
])

const who = v.exactOptional(v.strictObject({ person: id, check: v.nullable(id) }))

const event = v.variant('type', [
  anEvent({
    type: v.literal('run-started'),
    procedureId: id,
    procedureHash: id,
    site: words,
    machine: words,
    zone: words,
    who
  }),
  anEvent({ type: v.literal('caution-acknowledged'), ...stepRef }),
  anEvent({ type: v.literal('step-done'), ...stepRef, confirmation: v.picklist(['everyday', 'phrase', 'held']) }),
  anEvent({ type: v.literal('check-answered'), ...stepRef, answer, good: v.boolean() }),
  anEvent({ type: v.literal('wait-acknowledged'), ...stepRef }),
  anEvent({ type: v.literal('taken-back'), cancels: id }),
  anEvent({
    type: v.literal('refused'),
    command: words,
    lane: v.nullable(id),
    step: v.nullable(id),
    reason: refusalReason,
    remainingMs: v.nullable(v.pipe(v.number(), v.finite()))
  }),
  anEvent({ type: v.literal('paused') }),
  anEvent({ type: v.literal('resumed') }),
  anEvent({ type: v.literal('handed-over'), to: words, who }),
  anEvent({ type: v.literal('problem-reported'), lane: id, text: words }),
  anEvent({ type: v.literal('corrected'), lane: id, action: words, redo: v.nullable(id) }),
  anEvent({ type: v.literal('lane-chosen'), lane: id }),
  anEvent({ type: v.literal('lane-called'), lane: id }),
  anEvent({ type: v.literal('rest-called'), lane: id, until: time }),
  anEvent({ type: v.literal('joined'), name: words, who }),
  anEvent({ type: v.literal('left'), hands: id }),
  anEvent({ type: v.literal('clock-moved'), byMs: v.pipe(v.number(), v.finite()) }),
  anEvent({ type: v.literal('clock-caught-up'), since: time, byMs: v.pipe(v.number(), v.finite()) }),
  anEvent({
    type: v.literal('entries-lost'),
    ids: v.pipe(v.array(id), v.maxLength(MOST_LOST_AT_ONCE), v.readonly()),
    gaps: v.pipe(v.number(), v.safeInteger(), v.minValue(0))
  }),
  anEvent({ type: v.literal('run-finished') }),
  anEvent({ type: v.literal('run-abandoned'), reason: words }),
  anEvent({ type: v.literal('noted'), field: id, value: words }),
  anEvent({ type: v.literal('part-replaced'), part: id, lane: id, pieces: count }),
  anEvent({ type: v.literal('amended'), entry: id, was: answer, now: answer, reason: words }),
  anEvent({
    type: v.literal('spoken'),
    lines: v.pipe(
      v.array(v.strictObject({ at: time, text: v.nullable(words), who: v.picklist(['sidecall', 'operator']) })),
      v.minLength(1),
      v.maxLength(MOST_LINES_AT_ONCE),
      v.readonly()
    )
  }),
  anEvent({
    type: v.literal('signed'),
    meaning: v.picklist(MEANINGS),
    entries: count,
    head: id,
    person: v.exactOptional(id)
  }),
  anEvent({ type: v.literal('name-checked'), entry: id, person: id })
])

type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : never) : never
/** Fails to compile when the shape here and the type in core/run part ways. @public */
export const SHAPE_MATCHES_TYPE: Same<v.InferOutput<typeof event>, RunEvent> = true

export type ReadEvent =
  | { readonly kind: 'event'; readonly event: RunEvent }
  | { readonly kind: 'malformed'; readonly why: string }

export function readEvent(value: unknown): ReadEvent {
  const parsed = v.safeParse(event, value, { abortEarly: true })
  if (parsed.success) return { kind: 'event', event: parsed.output }
  const issue = parsed.issues[0]
  return { kind: 'malformed', why: `${v.getDotPath(issue) ?? 'event'}: ${issue.message}` }
}
