/** Takes in what other devices have added to the open run on the server. */
import type { Ports } from './ports.ts'

/** Where no stream works, this often, ms. */
const EVERY_MS = 15_000

export interface RunSync {
  /** Asks now; resolves when what is there has been taken in, or could not be had. */
  pull(): Promise<void>
  stop(): void
}

export interface RunSyncParts {
  readonly runId: string
  /** Something new is in the log. */
  readonly taken: () => Promise<void>
}

export function syncRun(
  { server, stream, log, clock }: Pick<Ports, 'server' | 'stream' | 'log' | 'clock'>,
  { runId, taken }: RunSyncParts
): RunSync {
  let position = 0
  let stopped = false
  let pulling: Promise<void> | null = null
  let again = false
  let cancel = () => {}

  async function pullOnce(): Promise<void> {
    const answered = await server.events(runId, position)
    if (answered.kind === 'failed' || stopped) return
    const { events } = answered.value
    if (events.length > 0) {
      const received = await log.receive(events)
      // Asked for once more next time.
      if (received.kind === 'failed') return
      await taken()
    }
    position = answered.value.position
  }

  async function pull(): Promise<void> {
    if (pulling) {
      again = true
      return pulling
    }
    pulling = pullOnce().finally(() => (pulling = null))
    await pulling
    if (!again) return
    again = false
    await pull()
  }

  function everySoOften(): void {
    cancel = clock.after(EVERY_MS, () => void pull().finally(() => (stopped ? undefined : everySoOften())))
  }

  const stopListening = stream.onMoved((moved) => {
    if (moved === null || moved === runId) void pull()
  })
  everySoOften()
  return {
    pull,
    stop() {
      stopped = true
      cancel()
      stopListening()
    }
  }
}
