/** The shapes of the server's answers about records; loaded with the screens that show them. Null for anything else. */
import * as v from 'valibot'
import { READING_UNITS } from '../procedure/procedure.ts'
import { STATUSES } from '../sanitizer/rule-set.ts'
import { reader } from './reader.ts'

const time = v.pipe(v.number(), v.finite(), v.minValue(0))
const whole = v.pipe(v.number(), v.safeInteger(), v.minValue(0))
const text = v.record(v.string(), v.string())

const recordsAnswer = v.object({
  records: v.array(
    v.object({
      runId: v.string(),
      procedureId: v.string(),
      procedureHash: v.string(),
      title: v.nullable(text),
      site: v.string(),
      machine: v.string(),
      zone: v.string(),
      operator: v.string(),
      startedAt: time,
      endedAt: v.nullable(time),
      status: v.picklist(['open', 'complete', 'ended-early']),
      review: v.picklist(['unsigned', 'signed', 'changed-since']),
      entries: whole
    })
  ),
  more: whole
})

const use = v.picklist(['overdue', 'must-not-be-used'])
const state = v.variant('kind', [
  v.object({ kind: v.literal('in-order'), dueAt: v.nullable(time), startBy: v.nullable(v.number()) }),
  v.object({ kind: v.literal('start-now'), dueAt: time, startBy: v.number() }),
  v.object({ kind: v.literal('overdue'), dueAt: time, use }),
  v.object({ kind: v.literal('never-done'), use }),
  v.object({ kind: v.literal('under-way'), runId: v.string(), dueAt: v.nullable(time) })
])

const dueAnswer = v.object({
  duties: v.array(
    v.object({
      machine: v.string(),
      procedure: v.string(),
      title: v.nullable(text),
      sides: v.array(text),
      duty: v.picklist(['every', 'day-of-use', 'before-use']),
      lastDone: v.nullable(time),
      state,
      source: v.string(),
      edition: v.string(),
      status: v.picklist(STATUSES)
    })
  ),
  wear: v.array(
    v.object({
      machine: v.string(),
      part: text,
      lane: v.string(),
      worn: v.picklist(['soon', 'due']),
      since: time,
      isKnown: v.boolean(),
      runs: whole
    })
  )
})

const signedAnswer = v.object({ signed: v.string() })

const points = v.array(v.object({ at: time, value: v.number(), bad: v.boolean() }))
const trendsAnswer = v.object({
  runs: whole,
  readings: v.array(v.object({ unit: v.picklist(READING_UNITS), points })),
  duration: points,
  attempts: points,
  corrections: points,
  steps: v.array(v.object({ step: v.string(), say: text, seconds: v.number(), planned: v.number(), runs: whole }))
})

export const readRecordsAnswer = reader(recordsAnswer)
export const readDueAnswer = reader(dueAnswer)
export const readTrendsAnswer = reader(trendsAnswer)
export const readSignedAnswer = reader(signedAnswer)
