/** A steady operator carries the shipped procedures out with the program's own run: to the end, nothing late, nothing early. */
import { describe, expect, it } from 'vitest'
import { layOut, type Course, type LaneStep } from '../../src/core/procedure/course.ts'
import type { Check, Procedure } from '../../src/core/procedure/procedure.ts'
import { callAt, type Call } from '../../src/core/run/call.ts'
import type { Command } from '../../src/core/run/command.ts'
import { decide } from '../../src/core/run/decide.ts'
import type { Answer, RunEvent } from '../../src/core/run/event.ts'
import { advance, emptyRun } from '../../src/core/run/reduce.ts'
import { counting, STARTED } from '../helpers/stamping.ts'
import { SHIPPED_WITH_RULES } from './shipped-files.ts'

/** What somebody at the machine finds: all parts there, strip and probe in the middle of their limits. */
function goodAnswer(procedure: Procedure, lane: string, check: Check): Answer {
  if (check.kind === 'yes-no') return { kind: 'yes-no', value: check.good }
  if (check.kind === 'reading') {
    const { min, max } = check
    return { kind: 'reading', value: ((min ?? max ?? 0) + (max ?? min ?? 0)) / 2, unit: check.unit }
  }
  const oneSide = procedure.sides.some(({ id }) => id === lane)
  const pieces = procedure.parts
    .filter(({ id }) => check.parts.includes(id))
    .map(({ per, count }) => (per === 'side' && !oneSide ? count * procedure.sides.length : count))
  return { kind: 'count', value: pieces.reduce((sum, count) => sum + count, 0) }
}

function commandFor(procedure: Procedure, call: Extract<Call, { lane: string }>): Command {
  if (call.kind === 'caution') return { type: 'understood' }
  if (call.kind === 'alarm') return { type: 'acknowledge-wait', lane: call.lane }
  if (call.kind === 'step' && call.place.step.confirm) return { type: 'confirm', how: 'phrase' }
  if (call.kind === 'step' && call.place.step.check) {
    return { type: 'answer', answer: goodAnswer(procedure, call.lane, call.place.step.check) }
  }
  if (call.kind === 'step') return { type: 'done' }
  throw new Error(`a steady operator was not expected to meet ${JSON.stringify(call)}`)
}

function carryOut(course: Course): { status: string; events: readonly RunEvent[]; calls: readonly LaneStep[] } {
  const stamp = counting()
  let at = 1_000_000
  const started = stamp(at)(STARTED)
  let events: readonly RunEvent[] = [started]
  let run = advance(course, emptyRun(course, 'run'), events, [started])
  const calls: LaneStep[] = []
  for (let turn = 0; turn < 2000 && run.status === 'running'; turn += 1) {
    const call = callAt(course, run, at)
    let command: Command = { type: 'call-hands' }
    if (call.kind === 'all-waiting') {
      at = call.until
    } else if ('lane' in call) {
      if (call.kind === 'step') {
        at += call.place.step.handsSeconds * 1000
        calls.push(call.place)
      }
      command = commandFor(course.procedure, call)
    }
    const decision = decide(course, run, command, at, stamp(at))
    if (decision.kind === 'refused') throw new Error(`refused: ${JSON.stringify(decision.refusal)}`)
    events = [...events, ...decision.events]
    run = advance(course, run, events, decision.events)
  }
  return { status: run.status, events, calls }
}

describe.each(SHIPPED_WITH_RULES)('$name', ({ procedure }) => {
  const course = layOut(procedure)

  it('comes to its end, each lane in its own order', () => {
    const { status, calls } = carryOut(course)
    expect(status).toBe('finished')
    for (const lane of course.lanes) {
      const repeated = lane.steps.map(({ step }) => step.repeat?.atLeast ?? 1)
      const called = calls.filter((place) => lane.steps.includes(place)).map((place) => lane.steps.indexOf(place))
      expect(new Set(called).size, lane.id).toBe(lane.steps.length)
      expect(called.length, lane.id).toBeGreaterThanOrEqual(lane.steps.length + Math.max(...repeated) - 1)
    }
  })

  it('works on other lanes while one waits', () => {
    const { events } = carryOut(course)
    const took = (events.at(-1)?.at ?? 0) - (events[0]?.at ?? 0)
    const oneAfterTheOther = course.lanes
      .flatMap(({ steps }) => steps)
      .reduce((sum, { step }) => sum + (step.handsSeconds + (step.wait?.minSeconds ?? 0)) * 1000, 0)
    expect(took).toBeLessThan(oneAfterTheOther)
  })
})
