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

/** Only ears that know few words are ever unsure. */
async function fewWordsAreKnown(): Promise<void> {
  page.ears.become('embedded')
  await shop.pass(1000)
}

test('a guess is asked about; yes does it, no does nothing', async () => {
  await fewWordsAreKnown()
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
  await fewWordsAreKnown()
  await afterSaying(() => page.ears.guess('all done'))
  await afterSaying(() => page.ears.guess('yes'))
  expect(done()).toBe(0)
})

test('the same words again are the answer: who is asked says them once more', async () => {
  await fewWordsAreKnown()
  await afterSaying(() => page.ears.guess('all done'))
  await afterSaying(() => page.ears.guess('hold on'))
  expect(done()).toBe(0)
  await afterSaying(() => page.ears.guess('all done'))
  expect(done()).toBe(1)
  expect(page.run().conductor.$asking.get()).toBeNull()
})

test('it is known whose ears listen', () => {
  expect(page.app.whoseEars()).toBe(page.ears.which())
})

test('the ears are told what means something now', async () => {
  expect(page.ears.expected).toBeNull()
  await fewWordsAreKnown()
  expect(page.ears.expected).toContain('all done')
  expect(page.ears.expected).not.toContain('carry on')
  await afterSaying(() => page.ears.say('hold on'))
  expect(page.ears.expected).toContain('carry on')
  expect(page.ears.expected).not.toContain('all done')
})

test('what was almost a command twice in a row brings other ways and the closest words, once', async () => {
  const said = () => page.mouth.said.map(({ text }) => text)
  await afterSaying(() => page.ears.almost('all done', 'hold on'))
  const before = said().length
  await afterSaying(() => page.ears.almost('all done', 'hold on'))
  expect(said().slice(before)).toEqual([
    'You can also touch the screen or use the pedal.',
    'You can say: all done or hold on.'
  ])
  await afterSaying(() => page.ears.almost('all done'))
  await afterSaying(() => page.ears.almost('all done'))
  expect(said()).toHaveLength(before + 2)
  expect(done()).toBe(0)
})

test('two that are far apart, or with a command between, bring nothing', async () => {
  await afterSaying(() => page.ears.almost('all done'))
  await shop.pass(20_000)
  await afterSaying(() => page.ears.almost('all done'))
  await afterSaying(() => page.ears.say('say again'))
  await afterSaying(() => page.ears.almost('all done'))
  expect(page.mouth.said.map(({ text }) => text)).not.toContain('You can also touch the screen or use the pedal.')
})

test('what came of each command goes to ears that learn', async () => {
  await afterSaying(() => page.ears.say('say again'))
  page.ears.become('embedded')
  await afterSaying(() => page.ears.say('tell me why'))
  await afterSaying(() => page.ears.say('all done'))
  expect(page.practice.came).toEqual([['tell me why'], ['all done', 'step-done', 'lane-called']])
})

test('the attention word is asked of the ears where the place is loud', async () => {
  expect(page.ears.attention).toBeNull()
  page.app.$settings.set({ ...page.app.$settings.get(), attention: 'word' })
  expect(page.ears.attention?.[0]).toBe('hello sidecall')
})
