import { atom } from 'nanostores'
import { expect, test } from 'vitest'
import type { PageUpdatesState } from '../ports/page-updates.ts'
import type { View } from './app.ts'
import { offerUpdates } from './page-updates.ts'

const CHOOSE: View = { kind: 'choose', offers: null }
/** Only what is shown matters here, not what is in it. */
const RUN = { kind: 'run' } as View

function world(first: View) {
  const $view = atom<View>(first)
  const did: string[] = []
  let tellState: (state: PageUpdatesState) => void = () => {}
  let tellTaken = () => {}
  const offer = offerUpdates(
    {
      state: () => ({ kind: 'unknown' }),
      onState(tell) {
        tellState = tell
        return () => {}
      },
      look: () => void did.push('look'),
      take: () => void did.push('take'),
      onTaken(tell) {
        tellTaken = tell
        return () => {}
      }
    },
    { $view },
    () => void did.push('reload')
  )
  return { $view, did, offer, become: (state: PageUpdatesState) => tellState(state), taken: () => tellTaken() }
}

test('looks at the start, also in a run, and each time the first screen comes back', () => {
  const { $view, did } = world(RUN)
  expect(did).toEqual(['look'])
  $view.set(CHOOSE)
  $view.set({ ...CHOOSE })
  expect(did).toEqual(['look', 'look'])
})

test('shows what there is, and takes nothing before it is told to', () => {
  const { offer, become, did } = world(CHOOSE)
  become({ kind: 'update-waiting' })
  expect(offer.$state.get()).toEqual({ kind: 'update-waiting' })
  expect(did).not.toContain('take')
  offer.take()
  expect(did).toContain('take')
})

test('a page that has become an older one is loaded again', () => {
  const { taken, did } = world(CHOOSE)
  taken()
  expect(did).toContain('reload')
})

test('but never under a run: only when the run is left', () => {
  const { taken, did, $view } = world(RUN)
  taken()
  expect(did).not.toContain('reload')
  $view.set(CHOOSE)
  expect(did.filter((what) => what === 'reload')).toHaveLength(1)
})
