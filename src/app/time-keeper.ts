/** Keeps trusted time going: reads the clock, notices jumps, and asks the server what really passed. */
import { atom, type ReadableAtom } from 'nanostores'
import {
  beginTime,
  catchUp,
  confirm,
  tick,
  type CatchUp,
  type Mark,
  type TrustedTime
} from '../core/time/trusted-time.ts'
import type { ServerFailure } from '../ports/server.ts'
import type { Ports } from './ports.ts'

export interface ClockNotice {
  /** Signed size of the last jump of the device's clock, ms. */
  readonly movedMs: number
  /** Time that passed on the device's clock and is not counted until the server confirms it, ms. */
  readonly unconfirmedMs: number
}

export type TimeAsked =
  /** This device goes by the server's time now. */
  | { readonly kind: 'confirmed' }
  | { readonly kind: 'failed'; readonly failure: ServerFailure }
  /** What it means for waits could not be kept on this device, so it does not count yet. */
  | { readonly kind: 'not-kept' }

export interface TimeKeeper {
  /** Trusted epoch ms. */
  now(): number
  /** Null while the clocks agree. */
  readonly $notice: ReadableAtom<ClockNotice | null>
  /** The function returned ends it: whoever does not, is kept with all that it holds. */
  onMoved(tell: (byMs: number) => void): () => void
  /** Asks the server; resolves when it has answered or failed. */
  askServer(): Promise<TimeAsked>
  /** Stores where time stands, for a reload. */
  mark(): Promise<void>
}

/** Keeps a catch-up in the runs it concerns; false when that failed. `at` is the server's time. */
export type KeepCatchUp = (caughtUp: CatchUp, at: number) => Promise<boolean>

export async function keepTime(
  { clock, log, server }: Pick<Ports, 'clock' | 'log'> & { readonly server: Pick<Ports['server'], 'time'> },
  keepCatchUp: KeepCatchUp
): Promise<TimeKeeper> {
  const reading = () => ({ wall: clock.wall(), steady: clock.steady() })
  const kept = await log.mark()
  let time: TrustedTime = beginTime(reading(), kept.kind === 'kept' ? kept.value : await latestStamp(log, clock.wall()))
  let asking: Promise<unknown> = Promise.resolve()
  let movedMs = 0
  const $moved = atom<{ readonly byMs: number } | null>(null)
  const $notice = atom<ClockNotice | null>(null)

  function notice(): void {
    const now = time.unconfirmedMs > 0 || movedMs !== 0 ? { movedMs, unconfirmedMs: time.unconfirmedMs } : null
    const known = $notice.get()
    if (now?.movedMs !== known?.movedMs || now?.unconfirmedMs !== known?.unconfirmedMs) $notice.set(now)
  }

  function read(): void {
    const ticked = tick(time, reading())
    time = ticked.time
    if (ticked.jumpMs === 0) return
    movedMs = ticked.jumpMs
    notice()
    $moved.set({ byMs: ticked.jumpMs })
    void askServer()
  }

  function askServer(): Promise<TimeAsked> {
    const asked = asking.then(askOnce, askOnce)
    asking = asked
    return asked
  }

  async function askOnce(): Promise<TimeAsked> {
    read()
    const askedAt = time.trusted
    const answered = await server.time()
    if (answered.kind === 'failed') return answered
    const arrived = clock.steady()
    const { trusted } = answered.value
    const caughtUp = catchUp(time, askedAt, trusted)
    // Only then: believed earlier, the new time would end waits that began under the old one.
    if (caughtUp.byMs > 0 && !(await keepCatchUp(caughtUp, trusted))) return { kind: 'not-kept' }
    read()
    time = confirm(time, trusted, arrived)
    notice()
    await mark()
    return { kind: 'confirmed' }
  }

  async function mark(): Promise<void> {
    read()
    await log.keepMark({ trusted: time.trusted, wall: time.wall, confirmedAt: time.confirmedAt })
  }

  await askServer()
  notice()
  return {
    now() {
      read()
      return Math.floor(time.trusted)
    },
    $notice,
    onMoved: (tell) => $moved.listen((moved) => moved && tell(moved.byMs)),
    askServer,
    mark
  }
}

/** With the mark unreadable, what this device stamped last is the latest time that surely has been. */
async function latestStamp(log: Ports['log'], wall: number): Promise<Mark | null> {
  const ids = await log.runs()
  if (ids.kind === 'failed') return null
  let trusted = 0
  for (const runId of ids.value) {
    const read = await log.salvage(runId)
    if (read.kind === 'kept') trusted = read.value.events.reduce((latest, { at }) => Math.max(latest, at), trusted)
  }
  return trusted === 0 ? null : { trusted, wall }
}
