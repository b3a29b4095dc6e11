/** Updates of the page, whose code comes after the first screen: until then nothing is known. */
import type { PageUpdates, PageUpdatesState } from '../ports/page-updates.ts'
import { listeners } from './listeners.ts'
import { toldState } from './told-state.ts'

export function pageUpdatesLater(load: () => Promise<PageUpdates>): PageUpdates {
  const state = toldState<PageUpdatesState>({ kind: 'unknown' })
  const taken = listeners<void>()
  const loading = load()
  loading.then(
    (updates) => {
      state.set(updates.state())
      updates.onState(state.set)
      updates.onTaken(taken.tell)
    },
    () => state.set({ kind: 'absent', reason: 'failed' })
  )
  const then = (work: (updates: PageUpdates) => void) => void loading.then(work).catch(() => {})
  return {
    state: state.now,
    onState: state.onChange,
    look: () => then((updates) => updates.look()),
    take: () => then((updates) => updates.take()),
    onTaken: taken.add
  }
}
