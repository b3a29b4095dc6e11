import { afterEach, expect, test } from 'vitest'
import { kitchen, say, shippedProcedure, type Kitchen, type Page } from '../helpers/kitchen-page.ts'
import { wordsFor } from '../helpers/operator.ts'
import { withHead } from '../helpers/a-procedure.ts'

let place: Kitchen
afterEach(() => place.end())

const runOf = (page: Page) => page.run().session.$state.get()
const callOf = (page: Page) => page.run().conductor.$call.get()
const saidBy = (page: Page) =>
  page
    .run()
    .conductor.$transcript.get()
    .filter(({ who }) => who === 'sidecall')
    .map(({ text }) => text)

/** The operator takes the stated time for a step, then says what answers the call. */
async function turn(page: Page): Promise<void> {
  const call = callOf(page)
  if (call.kind === 'step') await place.pass(Math.max(0, call.place.step.handsSeconds * 1000 - 500))
  const [word] = wordsFor(runOf(page).course, callOf(page))
  if (word === undefined) {
    await place.pass(1000)
    return
  }
  await say(place, page, word)
  if (page.run().conductor.$asking.get() !== null) await say(place, page, 'yes')
}

test('the hands go where the plan sends them: the lane with the longest wait ahead comes first', async () => {
  place = await kitchen(
    withHead(`  - stage: A
    steps:
      - {step: pour, on: left, say: Pour a little., hands: 1 min, wait: {for: soak, at least: 1 min, source: Label}}
      - {step: fill, on: right, say: Fill the basin., hands: 1 min, wait: {for: soak, at least: 20 min, source: Label}}
      - {step: rinse, say: Rinse it., hands: 3 min}`)
  )
  const page = await place.start()
  await place.pass(1000)
  await say(place, page, 'why here')
  expect(saidBy(page).slice(-2)).toEqual([
    'Left first would end 1 minute later.',
    'Right then waits 20 minutes by itself.'
  ])
  await say(place, page, 'ready when')
  // 1 min of hands, 20 min of waiting and 3 min of hands on the right; the left fits in between; then what times vary.
  expect(saidBy(page).slice(-2)).toEqual([
    expect.stringMatching(/^Probably ready by .+, in 2[5-7] minutes\.$/),
    expect.stringMatching(/^With luck at .+\. Almost surely by .+\.$/)
  ])
  expect(callOf(page)).toMatchObject({ kind: 'step', lane: 'right' })
  await turn(page)
  expect(callOf(page)).toMatchObject({ kind: 'step', lane: 'left' })
})

test('all of a closing, done in the stated times, is ready when the plan said it would be', async () => {
  place = await kitchen(shippedProcedure('twin-freezer-closing.yaml'))
  const page = await place.start()
  await place.pass(1000)
  const planned = page.run().plan.$outlook.get()?.forecast.planned
  const begun = place.clock.steady()
  for (let turns = 0; runOf(page).run.status !== 'finished'; turns += 1) {
    if (turns > 3000) throw new Error(`No end in sight: ${JSON.stringify(callOf(page))}`)
    await turn(page)
  }
  const tookMs = place.clock.steady() - begun
  const finish = planned?.kind === 'plan' ? planned.plan.finish : 0
  // Answers take a second or two each, which nobody has planned; the run must not lose more than that.
  expect(tookMs / finish).toBeGreaterThan(0.97)
  expect(tookMs / finish).toBeLessThan(1.12)
}, 120_000)

test('what the plan says does not turn hands round: each call stays until it is answered', async () => {
  place = await kitchen(shippedProcedure('twin-freezer-closing.yaml'))
  const page = await place.start()
  await place.pass(1000)
  for (let turns = 0; turns < 25; turns += 1) {
    const before = callOf(page)
    // Slow, uneven hands: plans come every ten seconds meanwhile.
    await place.pass(20_000 + (turns % 3) * 25_000)
    const after = callOf(page)
    if (before.kind === 'step' && after.kind === 'step') expect(after.lane).toBe(before.lane)
    await turn(page)
  }
}, 120_000)

test('times are learned: what past runs took counts for the next, on another device and without the server too', async () => {
  place = await kitchen(
    withHead(`  - stage: A
    steps:
      - {step: pour, say: Pour it in., hands: 1 min, wait: {for: soak, at least: 5 min, source: Label}}
      - {step: rinse, say: Rinse it., hands: 2 min}`)
  )
  for (let runs = 0; runs < 4; runs += 1) {
    const page = await place.start()
    await place.pass(1000)
    for (let turns = 0; runOf(page).run.status !== 'finished'; turns += 1) {
      if (turns > 300) throw new Error(`No end in sight: ${JSON.stringify(callOf(page))}`)
      const call = callOf(page)
      // Twice as slow as the author thought.
      if (call.kind === 'step') await place.pass(call.place.step.handsSeconds * 1000)
      await turn(page)
    }
    await place.pass(40_000)
    page.close()
  }
  const other = await place.openElsewhere()
  const view = other.app.$view.get()
  await other.app.choose((view.kind === 'choose' && view.offers?.procedures[0]?.hash) || '')
  const gather = other.app.$view.get()
  if (gather.kind !== 'gather') throw new Error(`The page shows ${gather.kind}.`)
  const plan = await other.app.wholePlan(gather.course)
  if (plan.kind !== 'plan') throw new Error('There is no plan.')
  // As the author stated: 1 min, 5 s to go over, 1 min, the rest of 5 min, and 2 min on each side.
  const stated = (60 + 5 + 60 + 235 + 120 + 5 + 120) * 1000
  expect(plan.runs).toBe(4)
  expect(plan.finish).toBeGreaterThan(stated + 2 * 60_000)
  expect(plan.likely?.p95).toBeGreaterThan(plan.likely?.p50 ?? Number.POSITIVE_INFINITY)
  place.serverAway(true)
  expect(await other.app.wholePlan(gather.course)).toEqual(plan)
  other.close()
}, 120_000)

test('a limit that is missed on one side is said while the hands are still at the other, once', async () => {
  place = await kitchen(
    withHead(`  - stage: A
    steps:
      - {step: soak, on: left, say: Pour it in., hands: 10 s, wait: {for: soak, at least: 1 min, at most: 2 min, source: Label}}
      - {step: scrub, on: right, say: Scrub it., hands: 1 min}
      - {step: wipe, on: bench, say: Wipe it., hands: 1 min}
      - {step: rinse, on: left, say: Rinse it., hands: 10 s}`)
  )
  const page = await place.start()
  await place.pass(1000)
  await say(place, page, 'go to left')
  await say(place, page, 'all done')
  expect(callOf(page)).toMatchObject({ lane: 'right' })
  await say(place, page, 'bench')
  await place.pass(62_000)
  await say(place, page, 'yes')
  await place.pass(90_000)
  // Whoever chose a lane is not sent elsewhere.
  expect(callOf(page)).toMatchObject({ lane: 'bench' })
  expect(saidBy(page).filter((text) => text === 'Left. Soaking time took too long.')).toHaveLength(1)
})
