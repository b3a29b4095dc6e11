/** A device that knows its procedures carries out whole runs while the server is away. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { canonicalJson, sha256 } from '../../server/procedures/content-hash.ts'
import type { Call } from '../../src/core/run/call.ts'
import { aProcedure, EVERYTHING } from '../helpers/a-procedure.ts'
import { kitchen, say, type Kitchen, type Page } from '../helpers/kitchen-page.ts'
import { wordsFor } from '../helpers/operator.ts'
import { wrongIn } from '../helpers/run-oracle.ts'

let place: Kitchen
beforeEach(async () => {
  place = await kitchen(EVERYTHING)
})
afterEach(() => place.end())

const callOf = (page: Page): Call => page.run().conductor.$call.get()

function offersOf(page: Page) {
  const view = page.app.$view.get()
  if (view.kind !== 'choose' || !view.offers) throw new Error(`The page shows ${view.kind}, and offers nothing.`)
  return view.offers
}

/** The page has been open once with the server there, long enough to keep what was offered. */
async function knownDevice(): Promise<void> {
  const page = await place.open()
  page.app.$settings.set({ ...page.app.$settings.get(), operator: 'Ada' })
  for (const { hash } of offersOf(page).procedures) {
    // The hash is worked out by other threads, in their own time.
    await expect
      .poll(
        async () => {
          await place.pass(50)
          return isKept(page, hash)
        },
        { timeout: 20_000 }
      )
      .toBe(true)
  }
  page.close()
}

async function isKept(page: Page, hash: string): Promise<boolean> {
  const kept = await page.log.procedure(hash)
  return kept.kind === 'kept' && kept.value !== null
}

async function workUntil(page: Page, until: (call: Call) => boolean): Promise<void> {
  for (let turns = 0; !until(callOf(page)); turns += 1) {
    if (turns > 2000) throw new Error(`No end in sight at ${JSON.stringify(callOf(page))}`)
    const words = wordsFor(page.run().session.$state.get().course, callOf(page))
    if (words.length === 0) await place.pass(1000)
    for (const word of words) await say(place, page, word)
  }
}

async function beginOn(page: Page): Promise<void> {
  await page.app.choose(offersOf(page).procedures[0]?.hash ?? '')
  await page.app.begin()
  await place.pass(1500)
}

describe('a cold start with the server away', () => {
  test('offers what this device knows; a whole run is begun, carried out and finished, and sent later', async () => {
    await knownDevice()
    place.serverAway(true)
    const page = await place.open()
    expect(offersOf(page)).toMatchObject({ failure: { kind: 'unreachable' }, openRuns: [] })
    await beginOn(page)
    await workUntil(page, ({ kind }) => kind === 'finished')
    const { run, events, course } = page.run().session.$state.get()
    expect(wrongIn(course.procedure, events)).toEqual([])
    expect(await place.records.runs(10)).toEqual([])
    place.serverAway(false)
    await place.pass(20_000)
    const stored = (await place.records.eventsAfter(run.id, 0)).events
    // What the server's time meant for its waits came to it meanwhile.
    const after = page.run().session.$state.get().events
    expect(after.slice(0, events.length)).toEqual(events)
    expect(stored.map(({ id }) => id).sort()).toEqual(after.map(({ id }) => id).sort())
    page.close()
  })

  test('a device that has been off all night keeps every wait, and is not cut short when the server comes back', async () => {
    await knownDevice()
    place.serverAway(true)
    place.lidClosed(9 * 3_600_000)
    const page = await place.open()
    await beginOn(page)
    await workUntil(page, ({ kind }) => kind === 'all-waiting')
    const waits = () => Object.values(page.run().session.$state.get().run.lanes).flatMap(({ waiting }) => waiting ?? [])
    const left = () => Math.min(...waits().map(({ due }) => due)) - page.run().conductor.$now.get()
    const before = left()
    expect(before).toBeGreaterThan(0)
    place.serverAway(false)
    page.app.wake()
    await place.pass(500)
    expect(left()).toBeGreaterThan(before - 1500)
    expect(left()).toBeLessThanOrEqual(before)
    await workUntil(page, ({ kind }) => kind === 'finished')
    const { events, course } = page.run().session.$state.get()
    expect(wrongIn(course.procedure, events)).toEqual([])
    page.close()
  })

  test('an open run goes on', async () => {
    const first = await place.start()
    await say(place, first, 'all done')
    const before = first.run().session.$state.get().run
    first.close()
    place.serverAway(true)
    const page = await place.open()
    expect(page.run().session.$state.get().run).toEqual(before)
    page.app.unlock()
    await workUntil(page, ({ kind }) => kind === 'finished')
    page.close()
  })

  test('a device that was never here with the server says what it lacks', async () => {
    place.serverAway(true)
    const page = await place.openElsewhere()
    expect(offersOf(page)).toEqual({
      procedures: [],
      faults: [],
      openRuns: [],
      unreadable: 0,
      failure: { kind: 'unreachable' }
    })
    await page.app.choose('unknown')
    expect(page.app.$failure.get()).toEqual({ kind: 'procedure-unavailable' })
    page.close()
  })
})

test('a newer version that was offered once is what a device begins with alone; the run pins it', async () => {
  await knownDevice()
  const newer = aProcedure(EVERYTHING.replace(/^title: .*$/m, 'title: Another title'))
  const canonical = canonicalJson(newer)
  const hash = sha256(canonical)
  await place.records.publish({ hash, procedure: newer, canonical, source: '' }, place.clock.wall())
  await knownDevice()
  place.serverAway(true)
  const page = await place.open()
  expect(offersOf(page).procedures.map((one) => one.hash)).toEqual([hash])
  await beginOn(page)
  expect(page.run().session.$state.get().events[0]).toMatchObject({ type: 'run-started', procedureHash: hash })
  page.close()
})
