/** Entries of an open run that can no longer be read: mended where a copy is, and otherwise gone on without, safely. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Call } from '../../src/core/run/call.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { replay } from '../../src/core/run/reduce.ts'
import { EVERYTHING } from '../helpers/a-procedure.ts'
import { kitchen, say, type Kitchen, type Page } from '../helpers/kitchen-page.ts'
import { wordsFor } from '../helpers/operator.ts'
import { wrongIn } from '../helpers/run-oracle.ts'

let place: Kitchen
beforeEach(async () => {
  place = await kitchen(EVERYTHING)
})
afterEach(() => place.end())

const callOf = (page: Page): Call => page.run().conductor.$call.get()
const stateOf = (page: Page) => page.run().session.$state.get()
const waitOf = (page: Page, lane: string) => stateOf(page).run.lanes[lane]?.waiting ?? null

async function workUntil(page: Page, until: (call: Call) => boolean): Promise<void> {
  for (let turns = 0; !until(callOf(page)); turns += 1) {
    if (turns > 2000) throw new Error(`No end in sight at ${JSON.stringify(callOf(page))}`)
    const words = wordsFor(stateOf(page).course, callOf(page))
    if (words.length === 0) await place.pass(1000)
    for (const word of words) await say(place, page, word)
  }
}

function damagedView(page: Page) {
  const view = page.app.$view.get()
  if (view.kind !== 'damaged') throw new Error(`The page shows ${view.kind}.`)
  return view
}

const last = (page: Page, type: RunEvent['type']) => {
  const found = stateOf(page).events.findLast((event) => event.type === type)
  if (!found) throw new Error(`Nothing of type ${type}.`)
  return found
}

/** Nothing to do but wait; what happens from now on is only on this device. */
async function nothingButWaits(): Promise<Page> {
  const page = await place.start()
  await workUntil(page, ({ kind }) => kind === 'all-waiting')
  await place.pass(20_000)
  place.serverAway(true)
  return page
}

describe('the server has what is damaged', () => {
  test('it is mended at the next start, and nobody is asked', async () => {
    const first = await nothingButWaits()
    place.serverAway(false)
    const { events, run } = stateOf(first)
    first.close()
    for (const { id } of events.slice(0, 3)) place.storage.damage(id)
    const page = await place.open()
    expect(stateOf(page).events).toEqual(events)
    expect(stateOf(page).run).toEqual(run)
    expect([...place.storage.aside()].sort()).toEqual(
      events
        .slice(0, 3)
        .map(({ id }) => id)
        .sort()
    )
    page.close()
  })

  test('also when it is away at first, once somebody looks again', async () => {
    const first = await nothingButWaits()
    const { events } = stateOf(first)
    first.close()
    place.storage.damage(events[2]?.id ?? '')
    const page = await place.open()
    expect(damagedView(page)).toMatchObject({ lost: 1, server: 'server-away' })
    place.serverAway(false)
    await page.app.resume(damagedView(page).run)
    expect(stateOf(page).events).toEqual(events)
    expect(stateOf(page).events.some(({ type }) => type === 'entries-lost')).toBe(false)
    page.close()
  })

  test('a run that is over is mended too', async () => {
    const first = await place.start()
    await workUntil(first, ({ kind }) => kind === 'finished')
    await place.pass(20_000)
    const { events, run } = stateOf(first)
    first.close()
    place.storage.damage(events[5]?.id ?? '')
    const page = await place.open()
    expect(await page.log.read(run.id)).toEqual({ kind: 'kept', value: events })
    expect(page.app.$view.get()).toMatchObject({ kind: 'choose', offers: { unreadable: 0, openRuns: [] } })
    page.close()
  })
})

describe('nobody has what is damaged', () => {
  test('words never go on without it; a hold does, every lane is looked at, and the run is completed by the rules', async () => {
    const first = await nothingButWaits()
    const waits = Object.values(stateOf(first).run.lanes).flatMap(({ waiting }) => waiting ?? [])
    // Taken back after all, which nobody else has heard of.
    await say(place, first, 'go back')
    if (first.run().conductor.$asking.get()) await say(place, first, 'yes')
    const takenBack = last(first, 'taken-back')
    const { events } = stateOf(first)
    first.close()
    place.storage.damage(takenBack.id)

    const page = await place.open()
    expect(damagedView(page)).toMatchObject({ lost: 1, server: 'server-away' })
    place.serverAway(false)
    await page.app.resume(damagedView(page).run)
    expect(damagedView(page)).toMatchObject({ lost: 1, server: 'server-asked' })
    expect(page.ears.state().kind).toBe('off')
    await place.pass(5000)
    damagedView(page)

    await page.app.goOnWithout()
    page.app.unlock()
    const loss = last(page, 'entries-lost')
    expect(loss).toMatchObject({ ids: [takenBack.id], by: 'Ada', device: events[0]?.device })
    expect(place.storage.aside()).toEqual([takenBack.id])
    const { run, course } = stateOf(page)
    for (const { id } of course.lanes) expect(run.lanes[id]?.stop?.kind).toBe('entries-lost')
    expect(waits.length).toBeGreaterThan(0)
    for (const { lane, since, due } of waits) {
      expect(waitOf(page, lane)?.due).toBeGreaterThanOrEqual(loss.at + due - since)
    }

    await workUntil(page, ({ kind }) => kind === 'finished')
    const { events: all, run: over } = stateOf(page)
    expect(
      wrongIn(
        course.procedure,
        all.filter((event) => !over.setAside.includes(event))
      )
    ).toEqual([])
    await place.pass(20_000)
    expect(page.app.$link.get()).toEqual({ kind: 'linked' })
    const stored = await place.records.eventsAfter(over.id, 0)
    expect(replay(course, over.id, stored.events)).toEqual(over)
    page.close()
  }, 60_000)

  test('a row that is gone without a trace is noticed all the same', async () => {
    const first = await nothingButWaits()
    await say(place, first, 'hold on')
    await say(place, first, 'carry on')
    const paused = last(first, 'paused')
    first.close()
    place.storage.lose(paused.id)
    const page = await place.open()
    expect(damagedView(page)).toMatchObject({ lost: 1 })
    await page.app.goOnWithout()
    expect(last(page, 'entries-lost')).toMatchObject({ ids: [], gaps: 1 })
    page.close()
    // Once is enough.
    const again = await place.open()
    expect(last(again, 'entries-lost')).toMatchObject({ gaps: 1 })
    again.close()
  })

  test('what comes back from the server later fits in, and shortens nothing', async () => {
    const first = await nothingButWaits()
    const { events } = stateOf(first)
    const before = waitOf(first, 'left')
    first.close()
    place.storage.damage(events[2]?.id ?? '')
    const page = await place.open()
    await page.app.goOnWithout()
    const without = waitOf(page, 'left')
    place.serverAway(false)
    await place.pass(20_000)
    expect(stateOf(page).events.map(({ id }) => id)).toContain(events[2]?.id)
    expect(waitOf(page, 'left')?.due).toBeGreaterThanOrEqual(Math.max(before?.due ?? 0, without?.due ?? 0))
    page.close()
  })

  test('a full device keeps the run as it is, and says so', async () => {
    const first = await nothingButWaits()
    const { events } = stateOf(first)
    first.close()
    place.storage.damage(events[2]?.id ?? '')
    const page = await place.open()
    page.log.failAll('full')
    await page.app.goOnWithout()
    expect(page.app.$failure.get()).toMatchObject({ kind: 'storage', reason: 'full' })
    expect(damagedView(page).lost).toBe(1)
    page.log.failAll(null)
    await page.app.goOnWithout()
    expect(last(page, 'entries-lost')).toMatchObject({ ids: [events[2]?.id] })
    page.close()
  })
})

test('the beginning is damaged and nobody has it: the page says so, keeps what is left, and another run can be begun', async () => {
  const first = await place.open()
  first.app.$settings.set({ ...first.app.$settings.get(), operator: 'Ada' })
  const hash = await offeredAndKept(first)
  place.serverAway(true)
  await first.app.choose(hash)
  await first.app.begin()
  await place.pass(2000)
  await say(place, first, 'all done')
  const { events, run } = stateOf(first)
  first.close()
  place.storage.damage(events[0]?.id ?? '')

  const page = await place.open()
  expect(page.app.$view.get()).toMatchObject({ kind: 'choose', offers: { unreadable: 1, openRuns: [] } })
  expect(page.app.$failure.get()).toBe(null)
  await page.app.choose(hash)
  await page.app.begin()
  await place.pass(2000)
  expect(stateOf(page).run).toMatchObject({ status: 'running' })
  expect(stateOf(page).run.id).not.toBe(run.id)
  expect(await page.log.salvage(run.id)).toMatchObject({ value: { events: events.slice(1), damaged: [events[0]?.id] } })
  expect(place.storage.aside()).toEqual([])
  page.close()
})

test('damaged behind the back of an open page, it is mended from what the page still knows, and sent', async () => {
  const page = await nothingButWaits()
  await say(place, page, 'hold on')
  const [paused, before] = [last(page, 'paused'), stateOf(page).events.length]
  place.storage.damage(paused.id)
  place.storage.lose(stateOf(page).events[1]?.id ?? '')
  await say(place, page, 'carry on')
  const { events, run } = stateOf(page)
  expect(events.length).toBeGreaterThan(before)
  expect(await page.log.read(run.id)).toEqual({ kind: 'kept', value: events })
  expect(place.storage.aside()).toEqual([paused.id])
  place.serverAway(false)
  await place.pass(20_000)
  expect((await place.records.eventsAfter(run.id, 0)).events.length).toBe(stateOf(page).events.length)
  expect(page.app.$link.get()).toEqual({ kind: 'linked' })
  page.close()
})

/** The first procedure that is offered, once it is kept here. */
async function offeredAndKept(page: Page): Promise<string> {
  const view = page.app.$view.get()
  const hash = view.kind === 'choose' ? (view.offers?.procedures[0]?.hash ?? '') : ''
  // The hash is worked out by other threads, in their own time.
  await expect
    .poll(
      async () => {
        await place.pass(50)
        const kept = await page.log.procedure(hash)
        return kept.kind === 'kept' && kept.value !== null
      },
      { timeout: 20_000 }
    )
    .toBe(true)
  return hash
}
