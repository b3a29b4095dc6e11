/** Keeps trusted time going: reads the clock, notices jumps, and asks the server what really passed. */
import { atom, type ReadableAtom } from 'nanostores'
import { beginTime, confirm, tick, type TrustedTime } from '../core/time/trusted-time.ts'
import type { Ports } from './ports.ts'

export interface ClockNotice {
  /** Signed size of the last jump of the device's clock, ms. */
  readonly movedMs: number
  /** Time that passed on the device's clock and is not counted until the server confirms it, ms. */
  readonly unconfirmedMs: number
}

export interface TimeKeeper {
  /** Trusted epoch ms. */
  now(): number
  /** Null while the clocks agree. */
  readonly $notice: ReadableAtom<ClockNotice | null>
  onMoved(tell: (byMs: number) => void): void
  /** Asks the server; resolves when it has answered or failed. */
  askServer(): Promise<void>
  /** Stores where time stands, for a reload. */
  mark(): Promise<void>
}

export async function keepTime({ clock, log, server }: Pick<Ports, 'clock' | 'log' | 'server'>): Promise<TimeKeeper> {
  const reading = () => ({ wall: clock.wall(), steady: clock.steady() })
  const kept = await log.mark()
  let time: TrustedTime = beginTime(reading(), kept.kind === 'kept' ? kept.value : null)
  let movedMs = 0
  const listeners: ((byMs: number) => void)[] = []
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
    for (const tell of listeners) tell(ticked.jumpMs)
    void askServer()
  }

  async function askServer(): Promise<void> {
    const answered = await server.time()
    if (answered.kind !== 'answered') return
    const arrived = clock.steady()
    read()
    time = confirm(time, answered.value.trusted, arrived)
    notice()
  }

  await askServer()
  notice()
  return {
    now() {
      read()
      return Math.floor(time.trusted)
    },
    $notice,
    onMoved: (tell) => void listeners.push(tell),
    askServer,
    async mark() {
      read()
      await log.keepMark({ trusted: time.trusted, wall: time.wall })
    }
  }
}
