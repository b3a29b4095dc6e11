import type { Clock } from '../ports/clock.ts'
import type { ScreenLock, ScreenLockState } from '../ports/screen-lock.ts'
import type { PageVisibility } from './page-visibility.ts'
import { toldState } from './told-state.ts'

/** The part of `navigator.wakeLock` that is used here. */
export interface WakeLockGiver {
  request(type: 'screen'): Promise<WakeLockHold>
}
export type WakeLockHold = EventTarget & { readonly released: boolean; release(): Promise<void> }

const FIRST_RETRY_MS = 1000
const LONGEST_RETRY_MS = 60_000

/**
 * The system drops the lock when the page is hidden, the battery low or power saving on, and a dropped one cannot be
 * used again. `giver` is null where the browser has none; iOS home-screen apps have it from 18.4.
 */
export function wakeScreenLock(giver: WakeLockGiver | null, visibility: PageVisibility, clock: Clock): ScreenLock {
  const state = toldState<ScreenLockState>({ kind: 'off' })
  let wanted = false
  let asking = false
  let hold: WakeLockHold | null = null
  let retryMs = FIRST_RETRY_MS
  let cancelRetry = () => {}

  const lost = () => state.set({ kind: 'lost', reason: visibility.visible() ? 'refused' : 'hidden' })
  const letGo = (it: WakeLockHold) => {
    it.release().catch(() => {})
  }

  const settle = () => {
    cancelRetry()
    if (!wanted) {
      if (hold) letGo(hold)
      hold = null
      state.set({ kind: 'off' })
    } else if (!giver) {
      state.set({ kind: 'lost', reason: 'unsupported' })
    } else if (!visibility.visible()) {
      lost()
    } else if (!hold && !asking) {
      void ask(giver)
    }
  }
  const tryLater = () => {
    lost()
    cancelRetry = clock.after(retryMs, settle)
    retryMs = Math.min(LONGEST_RETRY_MS, retryMs * 2)
  }

  const ask = async (from: WakeLockGiver) => {
    asking = true
    try {
      const given = await from.request('screen')
      asking = false
      if (!wanted) return letGo(given)
      if (given.released) return tryLater()
      hold = given
      given.addEventListener('release', () => {
        if (hold !== given) return
        hold = null
        lost()
        // Not at once: a system that takes it back every time would be asked without end.
        if (wanted && visibility.visible()) tryLater()
      })
      retryMs = FIRST_RETRY_MS
      state.set({ kind: 'kept' })
    } catch {
      asking = false
      if (!wanted) return
      if (visibility.visible()) tryLater()
      else lost()
    }
  }

  visibility.onMoment((moment) => {
    if (moment !== 'hidden') retryMs = FIRST_RETRY_MS
    if (wanted) settle()
  })

  return {
    keep() {
      wanted = true
      settle()
    },
    release() {
      wanted = false
      settle()
    },
    state: state.now,
    onState: state.onChange
  }
}
