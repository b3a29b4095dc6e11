/** The shapes of the server's answers. Each reader gives null for anything else; unknown extra fields are dropped. */
import * as v from 'valibot'
import type { RunEvent } from '../run/event.ts'
import { reader } from './reader.ts'
import { readEvent } from './wire.ts'

const time = v.pipe(v.number(), v.finite(), v.minValue(0))
const whole = v.pipe(v.number(), v.safeInteger(), v.minValue(0))
const line = v.nullable(whole)
const text = v.record(v.string(), v.string())

const timeAnswer = v.object({ trusted: time })

const proceduresAnswer = v.object({
  procedures: v.array(
    v.object({
      id: v.string(),
      hash: v.string(),
      title: text,
      summary: text,
      example: v.exactOptional(v.literal(true)),
      machine: text,
      sides: v.array(v.object({ id: v.string(), name: text })),
      aboutSeconds: v.nullable(time)
    })
  ),
  faults: v.array(
    v.object({ file: v.string(), problems: v.array(v.object({ line, what: v.string(), mend: v.string() })) })
  )
})

const runsAnswer = v.object({
  runs: v.array(
    v.object({
      runId: v.string(),
      procedureHash: v.string(),
      procedureId: v.string(),
      machine: v.string(),
      startedAt: time,
      lastAt: time,
      operator: v.string(),
      open: v.boolean()
    })
  )
})

const timesAnswer = v.object({
  samples: v.array(
    v.object({
      step: v.string(),
      machine: v.string(),
      operator: v.string(),
      run: v.string(),
      seconds: time,
      at: time
    })
  )
})

const wearAnswer = v.object({
  parts: v.array(v.object({ part: v.string(), lane: v.string(), since: time, isKnown: v.boolean(), runs: whole }))
})

const receipt = v.object({
  stored: v.array(v.string()),
  // A server that gives a reason this program does not know still says in words why.
  rejected: v.array(v.object({ id: v.string(), why: v.string(), because: v.optional(v.string()) }))
})

const problemDetails = v.object({ title: v.string(), detail: v.optional(v.string(), '') })

export const readTimeAnswer = reader(timeAnswer)
export const readProceduresAnswer = reader(proceduresAnswer)
export const readRunsAnswer = reader(runsAnswer)
export const readTimesAnswer = reader(timesAnswer)
export const readWearAnswer = reader(wearAnswer)
/** What became of each event sent. */
export const readReceipt = reader(receipt)
/** RFC 9457 problem details. */
export const readProblem = reader(problemDetails)

/** One event in a form this program does not know makes the whole answer unusable: a run with holes would be another run. */
export function readEventsAnswer(
  value: unknown
): { readonly events: readonly RunEvent[]; readonly position: number } | null {
  const parsed = v.safeParse(v.object({ events: v.array(v.unknown()), position: whole }), value)
  if (!parsed.success) return null
  const events: RunEvent[] = []
  for (const sent of parsed.output.events) {
    const read = readEvent(sent)
    if (read.kind === 'malformed') return null
    events.push(read.event)
  }
  return { events, position: parsed.output.position }
}
