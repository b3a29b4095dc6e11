import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { EVERYTHING } from '../../tests/helpers/a-procedure.ts'
import { promisesRun } from '../../tests/helpers/fake-clock.ts'
import { kitchen, type Kitchen, type Page } from '../../tests/helpers/kitchen-page.ts'
import { expectedCount } from '../core/run/judge-answer.ts'
import { HOLD_MS, LONG_HOLD_MS, type Keys, type KeyTaker } from '../ports/keys.ts'
import { openRunScreens, type RunScreen, type RunScreens } from './run-screen.ts'

let place: Kitchen
let page: Page
let screens: RunScreens
let taker: KeyTaker | null

const keys: Keys = {
  take(given) {
    taker = given
    return () => {
      taker = null
    }
  }
}

beforeEach(async () => {
  place = await kitchen(EVERYTHING)
  page = await place.start('Ada')
  screens = openRunScreens(page.app, keys, place.clock)
})
afterEach(() => {
  screens.stop()
  page.close()
  place.end()
})

function screen(): RunScreen {
  const found = screens.$runScreen.get()
  if (!found) throw new Error('no run is open')
  return found
}

async function press(key: string, heldMs = 60): Promise<void> {
  if (!taker?.uses({ code: key, key })) throw new Error(`nobody uses ${key} now`)
  taker.pressed({ code: key, key, heldMs })
  await promisesRun()
  await promisesRun()
}

async function type(number: number): Promise<void> {
  for (const digit of String(number)) await press(digit)
  await press('Enter')
}

describe('keys and pedals alone', () => {
  /** What a foot and a few keys answer to whatever is called. */
  async function answer(): Promise<void> {
    const call = screen().conductor.$call.get()
    if (call.kind === 'all-waiting') return place.pass(30_000)
    if (call.kind === 'caution') return press('PageDown', HOLD_MS)
    if (call.kind !== 'step') return press('PageDown')
    const { check, confirm } = call.place.step
    if (check?.kind === 'yes-no') return press('PageDown', HOLD_MS)
    if (check?.kind === 'reading') return type(check.min ?? 0)
    if (check?.kind === 'count') return type(expectedCount(screen().course.procedure, call.lane, check.parts))
    return press('PageDown', confirm ? HOLD_MS : 60)
  }

  test('carry a run from its first step to its last', async () => {
    for (let turn = 0; turn < 400; turn += 1) {
      if (screen().conductor.$call.get().kind === 'finished') break
      await answer()
      await place.pass(300)
    }
    expect(screen().conductor.$call.get().kind).toBe('finished')
    const events = screen().session.$state.get().events
    expect(events.filter(({ type }) => type === 'refused')).toEqual([])
    expect(new Set(events.filter(({ via }) => via !== 'app').map(({ via }) => via))).toEqual(new Set(['touch', 'key']))
    expect(events.filter(({ via }) => via === 'touch').map(({ type }) => type)).toEqual(['run-started'])
  })
})

test('a switch that was taught works as the key it stands for', async () => {
  const { $settings } = page.app
  expect(taker?.uses({ code: 'F13', key: 'F13' })).toBe(false)
  $settings.set({ ...$settings.get(), pedal: { F13: 'done' } })
  const before = screen().session.$state.get().events.length
  await press('F13')
  expect(screen().session.$state.get().events.length).toBeGreaterThan(before)
})

test('with one switch a hold waits for its end, and a long one opens everything', async () => {
  const { $settings } = page.app
  expect(taker?.longest()).toBe(HOLD_MS)
  $settings.set({ ...$settings.get(), oneSwitchMs: 1800 })
  expect(taker?.longest()).toBe(LONG_HOLD_MS)
  await press('PageDown', LONG_HOLD_MS)
  expect(screen().panels.$panel.get().kind).toBe('ways')
  expect(screen().scan.$on.get()).toBe(true)
  await press('PageDown', HOLD_MS)
  expect(screen().panels.$panel.get().kind).toBe('none')
  expect(screen().scan.$on.get()).toBe(false)
})

test('a key goes back to the browser when the run is left', async () => {
  expect(taker).not.toBe(null)
  await page.app.backToChoice()
  expect(taker).toBe(null)
  expect(screens.$runScreen.get()).toBe(null)
})

test('after a reload the first key starts sound and ears, and answers nothing', async () => {
  screens.stop()
  page.close()
  page = await place.open()
  screens = openRunScreens(page.app, keys, place.clock)
  const before = screen().session.$state.get().run.progress.length
  await press('PageDown')
  expect(page.app.$view.get()).toMatchObject({ kind: 'run', needsTap: false })
  expect(screen().session.$state.get().run.progress.length).toBe(before)
  await press('PageDown')
  expect(screen().session.$state.get().run.progress.length).toBe(before + 1)
})

test('the key list opens and closes, and Escape closes any panel', async () => {
  await press('?')
  expect(screen().panels.$panel.get().kind).toBe('keys')
  await press('?')
  expect(screen().panels.$panel.get().kind).toBe('none')
  screen().panels.show({ kind: 'ways' })
  await press('Escape')
  expect(screen().panels.$panel.get().kind).toBe('none')
})

test('a new call takes no touch until a second tap of the same finger would be over', async () => {
  await place.pass(1000)
  expect(screen().isSettled()).toBe(true)
  await press('PageDown')
  expect(screen().isSettled()).toBe(false)
  await place.pass(499)
  expect(screen().isSettled()).toBe(false)
  await place.pass(1)
  expect(screen().isSettled()).toBe(true)
})

test('ticks leave the rows alone: only what changed is new', async () => {
  const before = screen().$rows.get()
  await place.pass(2000)
  expect(screen().$rows.get()).toBe(before)
  await press('PageDown')
  const after = screen().$rows.get()
  expect(after).not.toBe(before)
  expect(after.find(({ lane }) => lane === 'bench')).toBe(before.find(({ lane }) => lane === 'bench'))
})
