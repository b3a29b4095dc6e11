/** Ears that are not certain: a question before anything is done. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { withHead } from '../helpers/a-procedure.ts'
import { promisesRun } from '../helpers/fake-clock.ts'
import { kitchen, type Kitchen, type Page } from '../helpers/kitchen-page.ts'

const STEPS = withHead(`  - stage: Strip
    steps:
      - {step: lift, say: Lift the cover off., hands: 10 s}
      - {step: close, on: whole machine, say: Close the cover., hands: 10 s}`)

let shop: Kitchen
let page: Page
beforeEach(async () => {
  shop = await kitchen(STEPS)
  page = await shop.start()
  await shop.pass(5000)
})
afterEach(() => shop.end())

const done = () =>
  page
    .run()
    .session.$state.get()
    .events.filter(({ type }) => type === 'step-done').length

async function afterSaying(speak: () => void): Promise<void> {
  speak()
  await promisesRun()
  await shop.pass(3000)
}

test('a guess is asked about; yes does it, no does nothing', async () => {
  await afterSaying(() => page.ears.guess('all done'))
  expect(done()).toBe(0)
  expect(page.run().conductor.$asking.get()).toEqual({ kind: 'did-you-say', intent: { type: 'done' } })
  await afterSaying(() => page.ears.say('no'))
  expect(done()).toBe(0)
  await afterSaying(() => page.ears.guess('all done'))
  await afterSaying(() => page.ears.say('yes'))
  expect(done()).toBe(1)
})

test('a guess at the answer to that question answers nothing', async () => {
  await afterSaying(() => page.ears.guess('all done'))
  await afterSaying(() => page.ears.guess('yes'))
  expect(done()).toBe(0)
})

test('it is known whose ears listen', () => {
  expect(page.app.whoseEars()).toBe(page.ears.which())
})

test('the ears are told what means something now', async () => {
  expect(page.ears.expected).toContain('all done')
  expect(page.ears.expected).not.toContain('carry on')
  await afterSaying(() => page.ears.say('hold on'))
  expect(page.ears.expected).toContain('carry on')
  expect(page.ears.expected).not.toContain('all done')
})
