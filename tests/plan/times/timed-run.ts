/**
 * A run carried out by hands whose work is known to the second: what they really took for each step that nothing broke
 * into, beside the log that it left.
 */
import type { Course } from '../../../src/core/procedure/course.ts'
import type { LaneId } from '../../../src/core/procedure/procedure.ts'
import type { TimeSample } from '../../../src/core/plan/times/time-sample.ts'
import type { Call } from '../../../src/core/run/call.ts'
import type { Command } from '../../../src/core/run/command.ts'
import { expectedCount } from '../../../src/core/run/judge-answer.ts'
import { phaseOf } from '../../../src/core/run/phase.ts'
import { carriedRun } from '../../helpers/a-run.ts'
import type { RunEvent } from '../../../src/core/run/event.ts'

interface TimedRun {
  readonly course: Course
  readonly events: readonly RunEvent[]
  readonly worked: readonly TimeSample[]
}

type StepCall = Extract<Call, { kind: 'step' }>

const MOST_MOVES = 1500

/** `chance` gives whole numbers from 0; all zeros give a plain run in which some answers are bad. */
export function timedRun(course: Course, chance: () => number, changeMs: number): TimedRun {
  const carried = carriedRun(course)
  const worked: TimeSample[] = []
  /** Lanes on which something broke into the step to come. */
  const disturbed = new Set<LaneId>()
  let operator = 'Ada'
  let last: LaneId | null = null
  let freeAt = carried.at()
  let bad = 0

  const passMs = (ms: number) => carried.pass(ms / 1000)
  const arrive = (lane: LaneId) => {
    if (last !== null && last !== lane) passMs(Math.max(0, freeAt + changeMs - carried.at()))
    last = lane
  }

  const breakIn = (call: StepCall): 'goes-on' | 'left' => {
    switch (chance() % 12) {
      case 1:
        carried.do({ type: 'pause' })
        passMs(1000 * (1 + (chance() % 300)))
        carried.do({ type: 'resume' })
        return 'goes-on'
      case 2:
        operator = operator === 'Ada' ? 'Ben' : 'Ada'
        carried.do({ type: 'hand-over', to: operator })
        disturbed.add(call.lane)
        return 'goes-on'
      case 3:
        carried.do({ type: 'report-problem', lane: call.lane, text: 'leak' }).pass(40)
        carried.do({ type: 'correct', lane: call.lane, action: 'mended' })
        disturbed.add(call.lane)
        freeAt = carried.at()
        return 'goes-on'
      case 4: {
        const other = course.lanes.find(
          ({ id }) => id !== call.lane && phaseOf(course, carried.run(), id, carried.at()).kind === 'ready'
        )
        if (!other) return 'goes-on'
        carried.do({ type: 'choose-lane', lane: other.id })
        disturbed.add(call.lane)
        freeAt = carried.at()
        return 'left'
      }
      default:
        return 'goes-on'
    }
  }

  for (let move = 0; move < MOST_MOVES && carried.run().status === 'running'; move += 1) {
    const call = carried.call()
    if (call.kind === 'all-waiting') {
      passMs(call.until - carried.at())
    } else if (call.kind === 'alarm') {
      carried.do({ type: 'acknowledge-wait', lane: call.lane })
    } else if (call.kind === 'stopped' || call.kind === 'late') {
      carried.pass(25).do({ type: 'correct', lane: call.lane, action: 'mended' })
      disturbed.add(call.lane)
      last = call.lane
      freeAt = carried.at()
    } else if (call.kind === 'caution') {
      carried.do({ type: 'understood' })
    } else if (call.kind === 'step') {
      arrive(call.lane)
      const seconds = 2 + (chance() % 90)
      carried.pass(1)
      const left = breakIn(call) === 'left'
      if (left) continue
      // Whoever takes over hears the cautions again.
      const isHeard = carried.run().lanes[call.lane]?.cautioned
      if (call.place.step.cautions.length > 0 && !isHeard) carried.do({ type: 'understood' })
      carried.pass(seconds - 1)
      const isBad = call.place.step.check !== null && !call.place.step.repeat && bad < 1
      if (isBad) bad += 1
      const at = carried.at()
      carried.do(endOf(course, call, isBad))
      if (carried.run().progress.at(-1)?.at !== at) throw new Error('The step was refused.')
      const { step } = call.place
      if (!disturbed.delete(call.lane))
        worked.push({ step: step.id, machine: 'Freezer 1', operator, run: 'run', seconds, at })
      freeAt = at
    } else {
      throw new Error(`Nothing to do: ${call.kind}`)
    }
  }
  return { course, events: carried.events(), worked }
}

function endOf(course: Course, { lane, place }: StepCall, isBad: boolean): Command {
  const { check, confirm } = place.step
  switch (check?.kind) {
    case 'yes-no': {
      const bad = check.good === 'yes' ? 'no' : 'yes'
      return { type: 'answer', answer: { kind: 'yes-no', value: isBad ? bad : check.good } }
    }
    case 'count': {
      const value = expectedCount(course.procedure, lane, check.parts)
      return { type: 'answer', answer: { kind: 'count', value: isBad ? value + 1 : value } }
    }
    case 'reading': {
      const good = check.min ?? check.max ?? 0
      return { type: 'answer', answer: { kind: 'reading', value: isBad ? 9999 : good, unit: check.unit } }
    }
    case undefined:
      return confirm === null ? { type: 'done' } : { type: 'confirm', how: 'phrase' }
  }
}
