import { toldState } from '../../src/devices/told-state.ts'
import type { ScreenLock, ScreenLockState } from '../../src/ports/screen-lock.ts'

export interface FakeScreenLock extends ScreenLock {
  /** The system takes the lock away; throws when it is not wanted. */
  lose(reason: 'unsupported' | 'refused' | 'hidden'): void
  /** The system gives it again. */
  regain(): void
}

export function fakeScreenLock(): FakeScreenLock {
  const state = toldState<ScreenLockState>({ kind: 'off' })
  const wanted = () => {
    if (state.now().kind === 'off') throw new Error('Nobody wants the screen kept on.')
  }
  return {
    keep: () => state.set({ kind: 'kept' }),
    release: () => state.set({ kind: 'off' }),
    state: state.now,
    onState: state.onChange,
    lose(reason) {
      wanted()
      state.set({ kind: 'lost', reason })
    },
    regain() {
      wanted()
      state.set({ kind: 'kept' })
    }
  }
}
