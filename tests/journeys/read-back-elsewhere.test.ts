/** Hands that are called to the other side while a reading waits for its "yes". */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { withHead } from '../helpers/a-procedure.ts'
import { kitchen, say, type Kitchen, type Page } from '../helpers/kitchen-page.ts'

const STEPS = withHead(`  - stage: Mix
    steps:
      - step: strength
        say: Dip a strip.
        hands: 10 s
        read: {question: What is it?, reading: strength, unit: ppm, at least: 100, at most: 200, source: Ours, if not: [Mix.]}`)

let shop: Kitchen
let page: Page
beforeEach(async () => {
  shop = await kitchen(STEPS)
  page = await shop.start()
  await shop.pass(5000)
})
afterEach(() => shop.end())

const readings = () =>
  page
    .run()
    .session.$state.get()
    .events.flatMap((event) => (event.type === 'check-answered' ? [[event.lane, event.answer]] : []))
const hands = async (lane: string) => {
  await page.run().conductor.carryOut({ type: 'choose-lane', lane }, 'touch')
  await shop.pass(5000)
}

test('what was read on one side is never recorded for the other, nor asked again much later', async () => {
  const { conductor } = page.run()
  await say(shop, page, 'one fifty')
  expect(conductor.$asking.get()).toMatchObject({ kind: 'is-that-so' })
  await hands('right')
  expect(conductor.$call.get()).toMatchObject({ kind: 'step', lane: 'right' })
  expect(conductor.$asking.get()).toBeNull()
  await say(shop, page, 'yes')
  expect(readings()).toEqual([])
  await hands('left')
  expect(conductor.$asking.get()).toBeNull()
  await say(shop, page, 'yes')
  expect(readings()).toEqual([])
  await say(shop, page, 'one sixty')
  await say(shop, page, 'yes')
  expect(readings()).toEqual([['left', { kind: 'reading', value: 160, unit: '[ppm]' }]])
})
