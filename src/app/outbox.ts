/** Sends what this device has kept to the server, again and again until the server says it has it. */
import { atom, type ReadableAtom } from 'nanostores'
import type { RunEvent } from '../core/run/event.ts'
import type { RejectedEvent, ServerFailure } from '../ports/server.ts'
import type { Ports } from './ports.ts'
import type { TimeAsked } from './time-keeper.ts'
import { serverSaid } from './server-said.ts'

const BATCH = 200
const EVERY_MS = 15_000

export type LinkState =
  | { readonly kind: 'unknown' }
  | { readonly kind: 'linked' }
  | { readonly kind: 'away'; readonly unsent: number }
  /** It answers, but cannot keep anything just now, and says why: somebody has to mend it. */
  | { readonly kind: 'failing'; readonly unsent: number; readonly why: string }
  /** The server will never take some events: somebody has to look. */
  | { readonly kind: 'rejecting'; readonly why: string }

export interface Outbox {
  readonly $link: ReadableAtom<LinkState>
  /** Something new to send, or a reason to try again. */
  flush(): Promise<void>
  stop(): void
}

/**
 * `confirmTime` comes before anything is sent: a device that lags behind stamps its waits too early, and another one must
 * not hear of such a wait without the entry that makes it due later.
 */
export function openOutbox(
  { log, server, locks, clock }: Pick<Ports, 'log' | 'server' | 'locks' | 'clock'>,
  confirmTime: () => Promise<TimeAsked>
): Outbox {
  const $link = atom<LinkState>({ kind: 'unknown' })
  let flushing: Promise<void> | null = null
  let again = false
  let cancel = () => {}
  let stopped = false
  /** Runs that the server did not know, and that were sent again from their beginning on. */
  const sentAgain = new Set<string>()

  async function sendAll(): Promise<void> {
    const waiting = await log.unsent(BATCH)
    if (waiting.kind === 'failed') return
    if (waiting.value.length === 0) return settle()
    const asked = await confirmTime()
    if (asked.kind === 'failed') return $link.set(linkAfter(asked.failure, waiting.value.length))
    if (asked.kind === 'not-kept') return
    for (;;) {
      const unsent = await log.unsent(BATCH)
      if (unsent.kind === 'failed') return
      if (unsent.value.length === 0) return settle()
      const answered = await server.send(unsent.value)
      if (answered.kind === 'failed') {
        $link.set(linkAfter(answered.failure, unsent.value.length))
        return
      }
      const { stored, rejected } = answered.value
      await log.sent(stored)
      const refused = await refusedHere(rejected, unsent.value)
      if (refused === null) return
      for (const each of refused) await log.rejected(each)
      // A receipt that names none of what was sent would go round for ever.
      const named = new Set([...stored, ...rejected.map(({ id }) => id)])
      if (!unsent.value.some(({ id }) => named.has(id))) {
        $link.set({ kind: 'rejecting', why: rejected[0]?.why ?? '' })
        return
      }
    }
  }

  /** Without what comes once more, behind the beginning of its run that the server lacks; null where that must wait. */
  async function refusedHere(
    rejected: readonly RejectedEvent[],
    unsent: readonly RunEvent[]
  ): Promise<readonly RejectedEvent[] | null> {
    const runOf = (id: string) => unsent.find((event) => event.id === id)?.runId ?? ''
    const comesAgain = new Set<string>()
    for (const { id, because } of rejected) {
      const runId = runOf(id)
      if (because !== 'unknown-run' || sentAgain.has(runId)) continue
      const again = await log.sendAgain(runId)
      if (again.kind === 'failed') return null
      sentAgain.add(runId)
      if (again.value) comesAgain.add(runId)
    }
    return rejected.filter(({ id }) => !comesAgain.has(runOf(id)))
  }

  async function settle(): Promise<void> {
    const rejections = await log.rejections()
    const first = rejections.kind === 'kept' ? rejections.value[0] : undefined
    if (first) return $link.set({ kind: 'rejecting', why: first.why })
    const time = $link.get().kind === 'linked' ? null : await server.time()
    $link.set(time?.kind === 'failed' ? linkAfter(time.failure, 0) : { kind: 'linked' })
  }

  async function flush(): Promise<void> {
    if (stopped) return
    if (flushing) {
      again = true
      return flushing
    }
    flushing = locks.exclusively('outbox', sendAll).finally(() => {
      flushing = null
    })
    await flushing
    if (again) {
      again = false
      await flush()
    }
  }

  function everySoOften(): void {
    cancel = clock.after(EVERY_MS, () => {
      if (stopped) return
      $link.set($link.get().kind === 'linked' ? { kind: 'unknown' } : $link.get())
      void flush().finally(everySoOften)
    })
  }
  everySoOften()

  return {
    $link,
    flush,
    stop() {
      stopped = true
      cancel()
    }
  }
}

function linkAfter(failure: ServerFailure, unsent: number): LinkState {
  switch (failure.kind) {
    case 'unreachable':
      return { kind: 'away', unsent }
    case 'failing':
      return { kind: 'failing', unsent, why: serverSaid(failure) }
    case 'rejected':
      // Not for what is sent, but for who sends it: a device that is not paired, and will be.
      if (failure.status === 401 || failure.status === 403) return { kind: 'failing', unsent, why: serverSaid(failure) }
      return { kind: 'rejecting', why: serverSaid(failure) }
    case 'not-understood':
      return { kind: 'rejecting', why: serverSaid(failure) }
  }
}
