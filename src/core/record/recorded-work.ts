/** Steps and answers of a run, as they were done. */
import { CHANGE_MS } from '../plan/problem-of-run.ts'
import { workInRun } from '../plan/times/times-in-run.ts'
import { laneOf, type Course } from '../procedure/course.ts'
import type { Step } from '../procedure/procedure.ts'
import type { RunEvent } from '../run/event.ts'
import { expectedCount, isGood, judgeReading } from '../run/judge-answer.ts'
import type { Run } from '../run/run.ts'
import type { PlannedFor } from './planned-times.ts'
import { entryOf, type Amendment, type CheckRow, type StepRow } from './run-record.ts'
import type { Walk } from './walk.ts'

type Answered = Extract<RunEvent, { type: 'check-answered' }>

export function recordedSteps(course: Course, { visits }: Walk, plannedFor: PlannedFor): readonly StepRow[] {
  const events = visits.map(({ event }) => event)
  const worked = new Map(workInRun(course, events, CHANGE_MS).map((work) => [work.entry, work]))
  return visits.flatMap(({ event, counts }): readonly StepRow[] => {
    if ((event.type !== 'step-done' && event.type !== 'check-answered') || counts === 'set-aside') return []
    const { lane, step: id, round } = event
    const step = stepOf(course, lane, id)
    const work = counts === 'yes' ? worked.get(event.id) : undefined
    return [
      {
        ...entryOf(event),
        lane,
        step: id,
        round,
        say: step?.say ?? {},
        plannedSeconds: step?.handsSeconds ?? 0,
        planned: plannedFor(event),
        from: work?.from ?? null,
        actualSeconds: work?.seconds ?? null,
        confirmation: event.type === 'step-done' ? event.confirmation : null,
        takenBack: counts === 'taken-back'
      }
    ]
  })
}

export function recordedChecks(course: Course, { visits }: Walk): readonly CheckRow[] {
  const amended = visits.flatMap(({ event }) => (event.type === 'amended' ? [event] : []))
  return visits.flatMap(({ event, before, counts }): readonly CheckRow[] => {
    if (event.type !== 'check-answered' || counts === 'set-aside') return []
    const step = stepOf(course, event.lane, event.step)
    const check = step?.check
    if (!check) return []
    const { lane, step: id, round, answer, good } = event
    const amendments = amended
      .filter(({ entry }) => entry === event.id)
      .map((change): Amendment => {
        const { was, now, reason } = change
        return { ...entryOf(change), was, now, reason, good: isGood(course, before, event, check, now) }
      })
    const { unit, min, max, source } = check.kind === 'reading' ? check : NO_LIMITS
    return [
      {
        ...entryOf(event),
        lane,
        step: id,
        round,
        ask: check.ask,
        answer,
        good,
        limits: unit === null ? null : { min, max, unit, source },
        expected: check.kind === 'count' ? expectedCount(course.procedure, lane, check.parts) : null,
        rule: ruleOf(course, before, event, check),
        takenBack: counts === 'taken-back',
        amendments
      }
    ]
  })
}

const NO_LIMITS = { unit: null, min: null, max: null, source: {} } as const

function ruleOf(course: Course, run: Run, event: Answered, check: NonNullable<Step['check']>): CheckRow['rule'] {
  if (check.kind !== 'reading' || event.answer.kind !== 'reading' || !check.heldTo?.length) return null
  const judged = judgeReading(course, run, event, check, event.answer)
  return { kind: judged.kind, heldTo: judged.kind === 'open' ? null : judged.decided }
}

function stepOf(course: Course, lane: string, step: string): Step | undefined {
  return laneOf(course, lane)?.steps.find((place) => place.step.id === step)?.step
}
