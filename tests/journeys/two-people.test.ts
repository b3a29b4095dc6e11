import { afterEach, beforeEach, expect, test } from 'vitest'
import { replay } from '../../src/core/run/reduce.ts'
import { withHead } from '../helpers/a-procedure.ts'
import { kitchen, say, shippedProcedure, type Kitchen, type Page } from '../helpers/kitchen-page.ts'
import { wordsFor } from '../helpers/operator.ts'
import { wrongIn } from '../helpers/run-oracle.ts'

let place: Kitchen
beforeEach(async () => {
  place = await kitchen(shippedProcedure('twin-freezer-closing.yaml'))
})
afterEach(() => place.end())

const callOf = (page: Page) => page.run().conductor.$call.get()
const runOf = (page: Page) => page.run().session.$state.get()

async function joined(): Promise<readonly [Page, Page]> {
  const first = await place.start('Ada')
  await place.pass(2000)
  const second = await place.openElsewhere()
  const view = second.app.$view.get()
  const open = view.kind === 'choose' ? view.offers?.openRuns[0] : undefined
  if (!open) throw new Error('The run is not offered on the second device.')
  await second.app.resume(open)
  second.app.unlock()
  await second.run().conductor.carryOut({ type: 'join', name: 'Ben' }, 'touch')
  await place.pass(2000)
  return [first, second]
}

/** Each goes by what their own device says, one after the other. */
async function turn(page: Page): Promise<void> {
  const [word] = wordsFor(runOf(page).course, callOf(page))
  if (word === undefined) return
  await say(place, page, word)
  const asking = page.run().conductor.$asking.get()
  if (asking?.kind === 'is-that-so') await say(place, page, 'yes')
}

test('a run carried out by two people on two devices, each called to lanes of their own, is one run on both and on the server', async () => {
  const [ada, ben] = await joined()
  const together: string[] = []
  for (let turns = 0; runOf(ada).run.status !== 'finished'; turns += 1) {
    if (turns > 3000) throw new Error(`No end in sight: ${JSON.stringify([callOf(ada), callOf(ben)])}`)
    await turn(ada)
    await turn(ben)
    await place.pass(1000)
    const [a, b] = [callOf(ada), callOf(ben)]
    if (a.kind === 'step' && b.kind === 'step') together.push(`${a.lane} ${b.lane}`)
  }
  await place.pass(40_000)
  expect(together.length).toBeGreaterThan(10)
  expect(together.filter((lanes) => lanes.split(' ')[0] === lanes.split(' ')[1])).toEqual([])
  const { course, run, events } = runOf(ada)
  expect(wrongIn(course.procedure, events)).toEqual([])
  expect(runOf(ben).run).toEqual(run)
  const stored = await place.records.eventsAfter(run.id, 0)
  expect(replay(course, run.id, stored.events)).toEqual(run)
  const by = (name: string) => events.filter((event) => event.type === 'step-done' && event.by === name).length
  expect(by('Ada')).toBeGreaterThan(10)
  expect(by('Ben')).toBeGreaterThan(10)
  ada.close()
  ben.close()
}, 120_000)

test('with the server away each goes on with what they have, and both agree once it is back', async () => {
  const [ada, ben] = await joined()
  place.serverAway(true)
  for (let turns = 0; turns < 6; turns += 1) {
    await turn(ada)
    await turn(ben)
    await place.pass(1000)
  }
  expect(runOf(ada).events.length).not.toBe(runOf(ben).events.length)
  place.serverAway(false)
  await place.pass(60_000)
  expect(runOf(ben).run).toEqual(runOf(ada).run)
  expect(runOf(ada).run.setAside).toEqual([])
  ada.close()
  ben.close()
})

test('whoever carries on in place of a broken device speaks for the same pair of hands', async () => {
  const first = await place.start('Ada')
  await turn(first)
  await place.pass(2000)
  first.close()
  const second = await place.openElsewhere()
  const view = second.app.$view.get()
  const open = view.kind === 'choose' ? view.offers?.openRuns[0] : undefined
  if (!open) throw new Error('The run is not offered on the second device.')
  await second.app.resume(open)
  second.app.unlock()
  await place.pass(2000)
  await turn(second)
  expect(runOf(second).run.crew).toMatchObject([{ name: 'Ada' }])
  second.close()
})

test('an end that what somebody else did sets aside is no end: the run is offered again on the device that told it', async () => {
  place.end()
  place = await kitchen(withHead('  - {stage: A, steps: [{step: wipe, say: Wipe it., hands: 5 s}]}'))
  const [ada, ben] = await joined()
  await ben.run().conductor.carryOut({ type: 'done' }, 'touch')
  await place.pass(5000)
  place.serverAway(true)
  await ben.run().conductor.carryOut({ type: 'report-problem', lane: 'left', text: 'It drips.' }, 'touch')
  await place.pass(1000)
  await ada.run().conductor.carryOut({ type: 'done' }, 'touch')
  await place.pass(5000)
  expect(runOf(ada).run.status).toBe('finished')
  const { id } = runOf(ada).run
  ada.close()
  place.serverAway(false)
  await place.pass(60_000)
  expect(runOf(ben).run).toMatchObject({ status: 'running' })
  const again = await place.open()
  await place.pass(60_000)
  await again.app.backToChoice()
  expect(again.app.$view.get()).toMatchObject({ kind: 'choose', offers: { openRuns: [{ runId: id }] } })
  again.close()
  ben.close()
})
