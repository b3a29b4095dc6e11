/** The shape of events as they travel and are stored; checked wherever they come in. */
import * as v from 'valibot'
import { MEANINGS, type RunEvent } from '../run/event.ts'

/** What the server takes in one request. */
export const MOST_EVENTS_AT_ONCE = 500
export const MOST_BYTES_AT_ONCE = 1024 * 1024
/** What one entry can say was lost, so that it still fits into a request. Who lost more says so again. */
export const MOST_LOST_AT_ONCE = 5000

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
  v.strictObject({
    ...envelope,
    type: v.literal('run-started'),
    procedureId: id,
    procedureHash: id,
    site: words,
    machine: words,
    zone: words,
    who
  }),
  v.strictObject({ ...envelope, type: v.literal('caution-acknowledged'), ...stepRef }),
  v.strictObject({
    ...envelope,
    type: v.literal('step-done'),
    ...stepRef,
    confirmation: v.picklist(['everyday', 'phrase', 'held'])
  }),
  v.strictObject({ ...envelope, type: v.literal('check-answered'), ...stepRef, answer, good: v.boolean() }),
  v.strictObject({ ...envelope, type: v.literal('wait-acknowledged'), ...stepRef }),
  v.strictObject({ ...envelope, type: v.literal('taken-back'), cancels: id }),
  v.strictObject({
    ...envelope,
    type: v.literal('refused'),
    command: words,
    lane: v.nullable(id),
    step: v.nullable(id),
    reason: refusalReason,
    remainingMs: v.nullable(v.pipe(v.number(), v.finite()))
  }),
  v.strictObject({ ...envelope, type: v.literal('paused') }),
  v.strictObject({ ...envelope, type: v.literal('resumed') }),
  v.strictObject({ ...envelope, type: v.literal('handed-over'), to: words, who }),
  v.strictObject({ ...envelope, type: v.literal('problem-reported'), lane: id, text: words }),
  v.strictObject({ ...envelope, type: v.literal('corrected'), lane: id, action: words, redo: v.nullable(id) }),
  v.strictObject({ ...envelope, type: v.literal('lane-chosen'), lane: id }),
  v.strictObject({ ...envelope, type: v.literal('lane-called'), lane: id }),
  v.strictObject({ ...envelope, type: v.literal('rest-called'), lane: id, until: time }),
  v.strictObject({ ...envelope, type: v.literal('joined'), name: words, who }),
  v.strictObject({ ...envelope, type: v.literal('left'), hands: id }),
  v.strictObject({ ...envelope, type: v.literal('clock-moved'), byMs: v.pipe(v.number(), v.finite()) }),
  v.strictObject({
    ...envelope,
    type: v.literal('clock-caught-up'),
    since: time,
    byMs: v.pipe(v.number(), v.finite())
  }),
  v.strictObject({
    ...envelope,
    type: v.literal('entries-lost'),
    ids: v.pipe(v.array(id), v.maxLength(MOST_LOST_AT_ONCE), v.readonly()),
    gaps: v.pipe(v.number(), v.safeInteger(), v.minValue(0))
  }),
  v.strictObject({ ...envelope, type: v.literal('run-finished') }),
  v.strictObject({ ...envelope, type: v.literal('run-abandoned'), reason: words }),
  v.strictObject({ ...envelope, type: v.literal('noted'), field: id, value: words }),
  v.strictObject({ ...envelope, type: v.literal('part-replaced'), part: id, lane: id, pieces: count }),
  v.strictObject({ ...envelope, type: v.literal('amended'), entry: id, was: answer, now: answer, reason: words }),
  v.strictObject({
    ...envelope,
    type: v.literal('signed'),
    meaning: v.picklist(MEANINGS),
    entries: count,
    head: id,
    person: v.exactOptional(id)
  }),
  v.strictObject({ ...envelope, type: v.literal('name-checked'), entry: id, person: id })
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
