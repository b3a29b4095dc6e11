import { expect, test } from 'vitest'
import type { PageUpdates, PageUpdatesState } from '../ports/page-updates.ts'
import { listeners } from './listeners.ts'
import { pageUpdatesLater } from './page-updates-later.ts'
import { toldState } from './told-state.ts'

function updates() {
  const state = toldState<PageUpdatesState>({ kind: 'ready' })
  const taken = listeners<void>()
  const asked: string[] = []
  const all: PageUpdates = {
    state: state.now,
    onState: state.onChange,
    look: () => void asked.push('look'),
    take: () => void asked.push('take'),
    onTaken: taken.add
  }
  return { all, asked, state, taken }
}
const loaded = () => new Promise((over) => setImmediate(over))

test('what was asked before the code came is asked when it is there, and what becomes known is told', async () => {
  const { all, asked, state, taken } = updates()
  const later = pageUpdatesLater(async () => all)
  const told: string[] = []
  later.onState(({ kind }) => told.push(kind))
  later.onTaken(() => told.push('taken'))
  later.look()
  expect(later.state()).toEqual({ kind: 'unknown' })
  await loaded()
  state.set({ kind: 'update-waiting' })
  later.take()
  taken.tell()
  await loaded()
  expect(asked).toEqual(['look', 'take'])
  expect(told).toEqual(['ready', 'update-waiting', 'taken'])
  expect(later.state()).toEqual({ kind: 'update-waiting' })
})

test('where the code cannot be had, the page is not kept, and nothing fails', async () => {
  const later = pageUpdatesLater(() => Promise.reject(new Error('no network')))
  later.look()
  await loaded()
  expect(later.state()).toEqual({ kind: 'absent', reason: 'failed' })
})
