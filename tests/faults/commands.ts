/** What simulated people command. */
import type { Course } from '../../src/core/procedure/course.ts'
import { callAt } from '../../src/core/run/call.ts'
import type { Command } from '../../src/core/run/command.ts'
import { expectedCount } from '../../src/core/run/judge-answer.ts'
import type { Chance } from '../helpers/seeded.ts'
import type { Device } from './device.ts'

/** A sensible operator most of the time; else anything, also what must be refused. */
export function commandFor(
  device: Device,
  course: Course,
  chance: Chance,
  pick: <T>(items: readonly T[]) => T
): Command | null {
  const state = device.session()?.$state.get()
  if (!state) return null
  const lanes = course.lanes.map(({ id }) => id)
  if (chance() < 0.2) {
    return pick<Command>([
      { type: 'done' },
      { type: 'understood' },
      { type: 'take-back' },
      { type: 'pause' },
      { type: 'resume' },
      { type: 'join', name: device.name },
      { type: 'choose-lane', lane: pick(lanes) },
      { type: 'acknowledge-wait', lane: pick(lanes) },
      { type: 'report-problem', lane: pick(lanes), text: 'A leak.' },
      { type: 'correct', lane: pick(lanes), action: 'Mended.' }
    ])
  }
  return sensibleCommand(device, course, chance() < 0.2 ? 50 : 150)
}

/** What the device asks for; null while there is nothing to do. `ppm` is what a strip reads. */
export function sensibleCommand(device: Device, course: Course, ppm = 150): Command | null {
  const state = device.session()?.$state.get()
  if (!state) return null
  const call = callAt(course, state.run, device.now(), device.name)
  switch (call.kind) {
    case 'alarm':
      return { type: 'acknowledge-wait', lane: call.lane }
    case 'caution':
      return { type: 'understood' }
    case 'stopped':
    case 'late':
      return { type: 'correct', lane: call.lane, action: 'Mended.' }
    case 'paused':
      return { type: 'resume' }
    case 'step': {
      const { check, confirm } = call.place.step
      if (check?.kind === 'yes-no') return { type: 'answer', answer: { kind: 'yes-no', value: check.good } }
      if (check?.kind === 'count')
        return {
          type: 'answer',
          answer: { kind: 'count', value: expectedCount(course.procedure, call.lane, check.parts) }
        }
      if (check?.kind === 'reading')
        return { type: 'answer', answer: { kind: 'reading', value: ppm, unit: check.unit } }
      return confirm ? { type: 'confirm', how: 'held' } : { type: 'done' }
    }
    case 'all-waiting':
    case 'stand-by':
    case 'finished':
    case 'abandoned':
    case 'not-started':
      return null
  }
}
