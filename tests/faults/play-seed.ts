/** Plays one seed: tablets at one run, everything that can go wrong, and then what must hold. */
import { layOut } from '../../src/core/procedure/course.ts'
import type { Command } from '../../src/core/run/command.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { aProcedure, EVERYTHING } from '../helpers/a-procedure.ts'
import { fakeClock, promisesRun } from '../helpers/fake-clock.ts'
import { seeded } from '../helpers/seeded.ts'
import { STARTED } from '../helpers/stamping.ts'
import { commandFor } from './commands.ts'
import { faultyNetwork, LONGEST_DELAY_MS, PERFECT, type NetworkTally } from './faulty-network.ts'
import { redoneAlone } from './redone-alone.ts'
import { settled, type FakeClock } from './settled.ts'
import { simulatedDevice, type Device } from './device.ts'
import { faultyServer } from './server.ts'
import { wrongAfter } from './wrong-after.ts'

const MOVES = 120
const RUN = 'run'

export interface Played extends NetworkTally {
  readonly seed: number
  readonly events: number
  readonly deviceCrashes: number
  readonly serverCrashes: number
  readonly fullDisks: number
  readonly clockJumps: number
  /** See short-waits.ts. */
  readonly worstShortfallMs: number
  /** In words; empty when everything held. */
  readonly wrong: readonly string[]
  /** What happened, for a replay. */
  readonly trace: readonly string[]
}

/** Whether the server may say that it has kept what it has not: to see that this is noticed. */
export type Honesty = 'honest' | 'lies'

export async function playSeed(seed: number, honesty: Honesty = 'honest'): Promise<Played> {
  const chance = seeded(seed)
  const pick = <T>(items: readonly T[]): T => {
    const item = items[Math.floor(chance() * items.length)]
    if (item === undefined) throw new Error('There is nothing to pick from.')
    return item
  }
  const clock = fakeClock()
  const origin = clock.wall()
  const trace: string[] = []
  const procedure = aProcedure(EVERYTHING)
  const course = layOut(procedure)
  let ids = 0
  const bornAt = new Map<string, number>()
  const newId = () => {
    const id = `event-${String((ids += 1)).padStart(5, '0')}`
    bornAt.set(id, clock.steady())
    return id
  }
  const risk = { crash: 0.02, server: 0.06 }
  const server = faultyServer(
    () => origin + Math.floor(clock.steady()),
    () => (chance() < risk.server ? pick(['before', 'after', 'full'] as const) : null),
    newId,
    honesty
  )
  const network = faultyNetwork(server.serve, clock, chance)
  const fetched = globalThis.fetch
  globalThis.fetch = network.fetch
  try {
    const devices = ['tablet', 'phone', 'wall'].slice(0, 2 + Math.floor(chance() * 2)).map((name) =>
      simulatedDevice({
        name,
        runId: RUN,
        course,
        clock,
        newId,
        base: `http://${name}.test`,
        crashes: (step) => {
          if (chance() >= risk.crash) return null
          const point = pick(['before', 'after'] as const)
          trace.push(`${name} loses its power ${point} ${step}`)
          return point
        }
      })
    )
    const [first] = devices
    if (!first) throw new Error('There are devices.')
    const stamp = (at: number): RunEvent => {
      const envelope = { id: newId(), runId: RUN, at, deviceAt: at, device: first.name, seq: 1, by: 'Ada' }
      return { ...envelope, via: 'touch', ...STARTED }
    }
    const calm = { ...risk }
    Object.assign(risk, { crash: 0, server: 0 })
    for (const device of devices) await device.wake(device === first ? stamp : undefined)
    Object.assign(risk, calm)
    let clockJumps = 0
    let fullDisks = 0
    let alone: Device | null = null
    const cutOff = (device: Device | null): void => {
      alone = device
      network.cutOff(device ? [`${device.name}.test`] : [])
      if (device) trace.push(`${device.name} is cut off`)
    }
    for (let move = 0; move < MOVES; move += 1) {
      if (move % 15 === 0) {
        const isOut = chance() < 0.25
        network.set(isOut ? { ...PERFECT, drop: 1 } : { drop: 0.1, lose: 0.1, repeat: 0.08, delayMs: LONGEST_DELAY_MS })
        trace.push(isOut ? 'the network is down' : 'the network is bad')
        cutOff(chance() < 0.3 ? pick(devices) : null)
      }
      if (chance() < 0.02) {
        await redoneAlone({ devices, course, clock, chance, trace, cutOff })
        continue
      }
      const device = pick(devices)
      if (!device.isAwake()) {
        // It lies there for a while, and its time stands still; then it may be on its own.
        if (chance() < 0.3) {
          if (chance() < 0.5) cutOff(device)
          await settled(device.wake(), clock)
        }
        continue
      }
      const fate = chance()
      if (fate < 0.06) {
        const ms = pick([-7_200_000, -60_000, 30_000, 600_000, 86_400_000])
        device.moveWall(ms)
        clockJumps += 1
        trace.push(`${device.name}'s clock is moved by ${ms} ms`)
      } else if (fate < 0.1) {
        device.diskFull()
        fullDisks += 1
        trace.push(`${device.name}'s disk is full`)
      }
      // Whoever is alone at a machine others work at redoes what they did.
      const isRedoing = device === alone && chance() < 0.25
      const command: Command | null = isRedoing ? { type: 'take-back' } : commandFor(device, course, chance, pick)
      if (command) {
        trace.push(`${device.name}: ${JSON.stringify(command)}`)
        await settled(device.perform(command), clock)
      }
      await clock.pass(1000 * (1 + Math.floor(chance() ** 3 * 120)))
    }
    Object.assign(risk, { crash: 0, server: 0 })
    network.set(PERFECT)
    cutOff(null)
    await healed(devices, clock)
    const { wrong, worstShortfallMs } = await wrongAfter({
      devices,
      records: server.records,
      course,
      runId: RUN,
      bornAt
    })
    const { events } = await server.records.eventsAfter(RUN, 0)
    return {
      ...network.tally,
      seed,
      events: events.length,
      deviceCrashes: devices.reduce((sum, device) => sum + device.crashed(), 0),
      serverCrashes: server.crashed(),
      fullDisks: fullDisks + server.full(),
      clockJumps,
      worstShortfallMs,
      wrong,
      trace
    }
  } finally {
    globalThis.fetch = fetched
  }
}

/** Everything works again: every tablet is started, sends what it has, and takes in what the others have. */
async function healed(devices: readonly Device[], clock: FakeClock): Promise<void> {
  for (let round = 0; round < 4; round += 1) {
    for (const device of devices) if (!device.isAwake()) await settled(device.wake(), clock)
    for (let turn = 0; turn < 4; turn += 1) {
      await clock.pass(16_000)
      for (let more = 0; more < 8; more += 1) await promisesRun()
    }
    for (const device of devices) {
      await settled(device.flush(), clock)
      await settled(device.pull(), clock)
    }
  }
}
