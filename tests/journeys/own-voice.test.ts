/** The app does not obey itself: its own voice comes back through the microphone all through a run, and nothing follows. */
import { afterEach, expect, test } from 'vitest'
import { kitchen, shippedProcedure, type Kitchen, type Page } from '../helpers/kitchen-page.ts'
import { wordsFor } from '../helpers/operator.ts'

let place: Kitchen
afterEach(() => place.end())

/** As late as a slow recogniser can be: the ears have just opened. */
function echo(page: Page, from: number): number {
  const { said } = page.mouth
  if (page.ears.state().kind !== 'listening' || said.at(-1)?.outcome === null) return from
  for (const { text } of said.slice(from).slice(-1)) {
    const words = text.split(' ')
    // A room gives back the end of what was said rather than its beginning.
    for (const part of [text, words.slice(-4).join(' '), words.slice(Math.floor(words.length / 2)).join(' ')])
      if (part.split(' ').length > 1) page.ears.say(part)
  }
  return said.length
}

test('a whole run with its own voice in the microphone: nothing is triggered', async () => {
  place = await kitchen(shippedProcedure('twin-freezer-closing.yaml'))
  const page = await place.start()
  const { session, conductor } = page.run()
  const { course } = session.$state.get()
  let echoed = 0
  let echoes = 0
  for (let turn = 0; conductor.$call.get().kind !== 'finished'; turn += 1) {
    if (turn > 3000) throw new Error('No end in sight.')
    const before = echoed
    for (let slice = 0; slice < 8; slice += 1) {
      await place.pass(250)
      echoed = echo(page, echoed)
    }
    if (echoed > before) echoes += 1
    expect(conductor.$asking.get()?.kind ?? null, conductor.$transcript.get().at(-1)?.text ?? '').toBe(null)
    for (const words of wordsFor(course, conductor.$call.get())) await conductor.hearWords([words], 'typed')
    // What was asked back belongs to the typed words, not to an echo.
    if (conductor.$asking.get()?.kind === 'is-done') await conductor.hearWords(['yes'], 'typed')
  }
  const { events } = session.$state.get()
  expect(events.filter(({ via }) => via === 'voice')).toEqual([])
  expect(echoes).toBeGreaterThan(100)
  page.close()
}, 240_000)
