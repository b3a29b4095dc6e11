/**
 * The case in which a wait came out too short once: a tablet whose time stood still, and which reaches nobody, takes the
 * step back that a wait follows and does it once more, while another goes on by the first wait.
 */
import type { Course } from '../../src/core/procedure/course.ts'
import type { Command } from '../../src/core/run/command.ts'
import type { Chance } from '../helpers/seeded.ts'
import { sensibleCommand } from './commands.ts'
import type { Device } from './device.ts'
import { settled, type FakeClock } from './settled.ts'

export interface RedoneAloneParts {
  readonly devices: readonly Device[]
  readonly course: Course
  readonly clock: FakeClock
  readonly chance: Chance
  readonly trace: string[]
  readonly cutOff: (device: Device | null) => void
}

export async function redoneAlone({ devices, course, clock, chance, trace, cutOff }: RedoneAloneParts): Promise<void> {
  const [other, lone] = devices
  if (!other?.isAwake() || !lone) return
  const perform = async (device: Device, command: Command | null): Promise<void> => {
    if (!command) return
    trace.push(`${device.name}: ${JSON.stringify(command)}`)
    await settled(device.perform(command), clock)
  }
  const beganAt = () => other.session()?.$state.get().run.progress.at(-1)
  const waiting = () => {
    const run = other.session()?.$state.get().run
    return Object.values(run?.lanes ?? {}).find((lane) => lane.waiting?.begunBy === beganAt()?.id)?.waiting ?? null
  }
  for (let turn = 0; turn < 12 && waiting() === null; turn += 1) {
    await perform(other, sensibleCommand(other, course))
    await clock.pass(1000)
  }
  const first = waiting()
  if (!first) return
  cutOff(null)
  await settled(other.flush(), clock)
  await settled(lone.isAwake() ? lone.pull() : lone.wake(), clock)
  await clock.pass(20_000)
  lone.powerOff()
  trace.push(`${lone.name} lies switched off`)
  await clock.pass(20_000 + Math.floor(chance() * 300_000))
  cutOff(lone)
  await settled(lone.wake(), clock)
  await perform(lone, { type: 'take-back' })
  await perform(lone, { type: 'choose-lane', lane: first.lane })
  for (let turn = 0; turn < 3; turn += 1) await perform(lone, sensibleCommand(lone, course))
  for (let turn = 0; turn < 20; turn += 1) {
    await clock.pass(5000 + Math.floor(chance() * 25_000))
    await perform(other, sensibleCommand(other, course))
  }
  cutOff(null)
}
