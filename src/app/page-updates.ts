/** Offers a newer version of the page between runs; while a run is shown, the page stays what it is. */
import { atom, type ReadableAtom } from 'nanostores'
import type { PageUpdates, PageUpdatesState } from '../ports/page-updates.ts'
import type { App } from './app.ts'

/** Why the page is not kept on this device. */
export type CopyAbsence = Extract<PageUpdatesState, { kind: 'absent' }>['reason']

export interface UpdateOffer {
  readonly $state: ReadableAtom<PageUpdatesState>
  /** Only from the first screen, by somebody's touch. */
  take(): void
}

export function offerUpdates(updates: PageUpdates, { $view }: Pick<App, '$view'>, reload: () => void): UpdateOffer {
  const $state = atom(updates.state())
  updates.onState((state) => $state.set(state))
  let shown = $view.get().kind
  let isOld = false
  const reloadIfOld = () => {
    if (isOld && shown !== 'run') reload()
  }
  updates.onTaken(() => {
    isOld = true
    reloadIfOld()
  })
  $view.listen(({ kind }) => {
    const before = shown
    shown = kind
    reloadIfOld()
    if (kind === 'choose' && before !== 'choose') updates.look()
  })
  updates.look()
  return { $state, take: () => updates.take() }
}
