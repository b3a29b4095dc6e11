/** A run that is carried on by commands, the way an operator would, with time that a test moves. */
import type { Course } from '../../src/core/procedure/course.ts'
import { callAt, type Call } from '../../src/core/run/call.ts'
import type { Command } from '../../src/core/run/command.ts'
import { decide } from '../../src/core/run/decide.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { replay } from '../../src/core/run/reduce.ts'
import type { Run } from '../../src/core/run/run.ts'
import { counting, STARTED } from './stamping.ts'

export interface CarriedRun {
  readonly course: Course
  run(): Run
  events(): readonly RunEvent[]
  at(): number
  call(): Call
  /** Carries commands out one after the other; a refusal is an event like any other. */
  do(...commands: readonly Command[]): CarriedRun
  /** Seconds go by. */
  pass(seconds: number): CarriedRun
}

export const DONE: Command = { type: 'done' }
export const UNDERSTOOD: Command = { type: 'understood' }

export function carriedRun(course: Course, startedAt = 1_000_000): CarriedRun {
  const stamp = counting()
  let at = startedAt
  let events: RunEvent[] = [stamp(at)(STARTED)]
  let run = replay(course, 'run', events)
  const carried: CarriedRun = {
    course,
    run: () => run,
    events: () => events,
    at: () => at,
    call: () => callAt(course, run, at),
    do(...commands) {
      for (const command of commands) {
        events = [...events, ...decide(course, run, command, at, stamp(at)).events]
        run = replay(course, 'run', events)
      }
      return carried
    },
    pass(seconds) {
      at += seconds * 1000
      return carried
    }
  }
  return carried
}
