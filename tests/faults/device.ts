/** One simulated tablet: the page's own session, clock, outbox and sync over a storage that outlives crashes. */
import { keepCatchUp } from '../../src/app/catch-up.ts'
import { openOutbox, type Outbox } from '../../src/app/outbox.ts'
import { openSession, type RunSession } from '../../src/app/run-session.ts'
import { syncRun, type RunSync } from '../../src/app/run-sync.ts'
import { keepTime, type TimeKeeper } from '../../src/app/time-keeper.ts'
import type { Course } from '../../src/core/procedure/course.ts'
import type { Command } from '../../src/core/run/command.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { serverOverHttp } from '../../src/devices/server-http.ts'
import type { Clock } from '../../src/ports/clock.ts'
import { fakeBrowserLocks } from '../helpers/fake-locks.ts'
import { memoryStorage, type MemoryEventLog } from '../helpers/memory-event-log.ts'
import { crashingLog, type CrashPoint } from './crashing-log.ts'

export interface DeviceParts {
  readonly name: string
  readonly runId: string
  readonly course: Course
  /** Shared by all: what really passes. */
  readonly clock: Clock
  readonly newId: () => string
  readonly crashes: (step: string) => CrashPoint | null
  readonly base: string
}

interface Awake {
  readonly log: MemoryEventLog
  readonly time: TimeKeeper
  readonly outbox: Outbox
  readonly session: RunSession
  readonly sync: RunSync
  readonly sleep: () => void
}

export interface Device {
  readonly name: string
  isAwake(): boolean
  /** Starts the page again, from what its storage kept. `start`: a run to begin with. */
  wake(start?: (at: number) => RunEvent): Promise<void>
  perform(command: Command): Promise<void>
  session(): RunSession | null
  /** Its battery is empty, say. */
  powerOff(): void
  moveWall(ms: number): void
  diskFull(): void
  now(): number
  flush(): Promise<void>
  pull(): Promise<void>
  events(): Promise<readonly RunEvent[]>
  unsent(): Promise<number>
  readonly crashed: () => number
}

export function simulatedDevice(parts: DeviceParts): Device {
  const { name, runId, course, base } = parts
  const storage = memoryStorage()
  const server = serverOverHttp({ base })
  let wallOffset = 0
  let crashed = 0
  let awake: Awake | null = null
  const clock: Clock = {
    wall: () => parts.clock.wall() + wallOffset,
    steady: parts.clock.steady,
    after: parts.clock.after
  }

  function powerLost(): void {
    crashed += 1
    awake?.sleep()
    awake = null
  }

  async function wake(start?: (at: number) => RunEvent): Promise<void> {
    const bare = storage.open()
    const locks = fakeBrowserLocks().tab()
    let isHere = true
    const log = crashingLog(
      bare,
      (step) => (isHere ? parts.crashes(step) : 'before'),
      () => {
        if (!isHere) return
        isHere = false
        powerLost()
      }
    )
    const ports = { log, locks, clock, server, newId: parts.newId }
    const time = await keepTime(ports, (caughtUp, at) => keepCatchUp(ports, name, caughtUp, at))
    if (!isHere) return
    if (start) await log.append([start(time.now())])
    const read = await log.read(runId)
    const events = read.kind === 'kept' ? read.value : []
    const session = openSession(ports, { runId, course, events, device: name, now: time.now })
    const outbox = openOutbox(ports, time.askServer)
    const taken = async () => void (await session.refresh())
    const stream = { onMoved: () => () => {}, onOffered: () => () => {}, close: () => {} }
    const sync = syncRun({ server, stream, log, clock }, { runId, taken })
    const sleep = () => {
      isHere = false
      outbox.stop()
      sync.stop()
      locks.close()
      bare.close()
    }
    awake = { log: bare, time, outbox, session, sync, sleep }
  }

  return {
    name,
    isAwake: () => awake !== null,
    wake,
    async perform(command) {
      const now = awake
      if (!now) return
      await now.session.perform(command, 'touch', [])
      if (now !== awake) return
      void now.outbox.flush()
      void now.time.askServer()
    },
    powerOff() {
      if (awake) powerLost()
    },
    session: () => awake?.session ?? null,
    moveWall(ms) {
      wallOffset += ms
    },
    diskFull: () => awake?.log.failNext('full'),
    now: () => awake?.time.now() ?? 0,
    flush: async () => awake?.outbox.flush(),
    pull: async () => awake?.sync.pull(),
    async events() {
      const log = storage.open()
      const read = await log.read(runId)
      log.close()
      if (read.kind === 'failed') throw new Error(`${name} cannot read its log: ${read.detail}`)
      return read.value
    },
    async unsent() {
      const log = storage.open()
      const unsent = await log.unsent(10_000)
      log.close()
      return unsent.kind === 'kept' ? unsent.value.length : -1
    },
    crashed: () => crashed
  }
}
