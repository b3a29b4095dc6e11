import { expect, test } from 'vitest'
import { fakeClock, promisesRun } from '../../tests/helpers/fake-clock.ts'
import { fakeEars } from '../../tests/helpers/fake-ears.ts'
import { fakeMouth } from '../../tests/helpers/fake-mouth.ts'
import { createSpeaker } from './speaker.ts'

test.each([500, 1200])('the ears open %d ms after the real end of the sound, not sooner', async (tailMs) => {
  const clock = fakeClock()
  const [ears, mouth] = [fakeEars(clock), fakeMouth()]
  const speaker = createSpeaker(
    { mouth, ears, clock },
    { language: () => 'en', tailMs: () => tailMs, speakable: (text) => text }
  )
  ears.start('en')
  speaker.say([{ priority: 'step', text: 'Left. Wipe it.', lane: null }])
  await clock.pass(60_000)
  expect(ears.state().kind).toBe('gated')
  mouth.finish()
  await promisesRun()
  await clock.pass(tailMs - 1)
  expect(ears.state().kind).toBe('gated')
  await clock.pass(1)
  expect(ears.state().kind).toBe('listening')
})
