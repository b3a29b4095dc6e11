/**
 * Rings for every wait that is over until someone answers. Several independent paths notice the moment (the page's own
 * timer, a worker's timer, a tone handed to the sound hardware ahead of time); whichever is first wins.
 */
import { ringsAt, waitsAhead } from '../core/run/call.ts'
import type { Run, Waiting } from '../core/run/run.ts'
import type { Ports } from './ports.ts'
import type { Speaker } from './speaker.ts'

/** Silence between the words of one ring and the next, ms, with the ears open: long enough to answer. */
const BETWEEN_RINGS_MS = 4000
/** A mouth that never ends must not keep the alarm from ringing on. */
const LONGEST_WORDS_MS = 15_000
const HIGHEST_URGENCY = 3

export interface AlarmWatch {
  /** The run changed, or the time was put right: set every path anew. */
  reset(run: Run): void
  stop(): void
}

export interface AlarmWatchOptions {
  readonly device: string
  readonly now: () => number
  /** A wait is over: look at the call again. */
  readonly wake: () => void
  /** Says the words of the alarm. */
  readonly speak: () => void
}

export function watchAlarms(
  { alarm, waker, clock }: Pick<Ports, 'alarm' | 'waker' | 'clock'>,
  speaker: Speaker,
  options: AlarmWatchOptions
): AlarmWatch {
  let run: Run | null = null
  const paths = new Map<string, () => void>()
  const tones = new Map<string, { readonly cancel: () => void }>()
  let ringing: { readonly key: string; cancelNext: () => void } | null = null

  function reset(next: Run): void {
    run = next
    forgetPaths()
    const now = options.now()
    const ahead = new Map(waitsAhead(next).map((wait) => [keyOf(wait), { rings: ringsAt(next, wait, options.device) }]))
    for (const [key, tone] of tones) {
      if (ahead.has(key)) continue
      tone.cancel()
      tones.delete(key)
    }
    for (const [key, { rings }] of ahead) {
      if (rings <= now) continue
      watch(key, rings)
      tones.get(key)?.cancel()
      tones.set(key, { cancel: alarm.schedule(key, rings - now) })
    }
    check()
  }

  function watch(key: string, rings: number): void {
    paths.get(key)?.()
    paths.delete(key)
    const inMs = rings - options.now()
    if (inMs <= 0) return
    const woken = () => {
      check()
      // The server may have put the time back a little since, and a hidden page looks again only after a minute.
      if (paths.has(key)) watch(key, rings)
    }
    const cancels = [clock.after(inMs, woken), waker.wakeIn(key, inMs, woken)]
    paths.set(key, () => cancels.forEach((cancel) => cancel()))
  }

  function forgetPaths(): void {
    for (const cancel of paths.values()) cancel()
    paths.clear()
  }

  function check(): void {
    const current = run
    const due = current
      ? waitsAhead(current).find((wait) => ringsAt(current, wait, options.device) <= options.now())
      : undefined
    const key = due ? keyOf(due) : null
    if (ringing && ringing.key !== key) stopRinging()
    if (!due || key === null || ringing) return
    ringing = { key, cancelNext: () => undefined }
    options.wake()
    tones.delete(key)
    void ringOn(key, 0)
  }

  async function ringOn(key: string, urgency: number): Promise<void> {
    // A tone set ahead of time that sounds already is joined, so that the ears are closed over it too.
    await speaker.over(() => alarm.ring(urgency))
    if (ringing?.key !== key) return
    options.speak()
    const mine = ringing
    const ringAgain = () => void ringOn(key, Math.min(urgency + 1, HIGHEST_URGENCY))
    mine.cancelNext = clock.after(LONGEST_WORDS_MS, ringAgain)
    void speaker.quiet().then(() => {
      if (ringing !== mine) return
      mine.cancelNext()
      mine.cancelNext = clock.after(BETWEEN_RINGS_MS, ringAgain)
    })
  }

  function stopRinging(): void {
    ringing?.cancelNext()
    ringing = null
    alarm.silence()
  }

  return {
    reset,
    stop() {
      stopRinging()
      forgetPaths()
      for (const tone of tones.values()) tone.cancel()
      tones.clear()
      run = null
    }
  }
}

function keyOf(wait: Waiting): string {
  return `${wait.lane} ${wait.step} ${wait.round} ${wait.due}`
}
