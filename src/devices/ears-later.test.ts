import { expect, test } from 'vitest'
import { fakeClock, promisesRun } from '../../tests/helpers/fake-clock.ts'
import { fakeEars } from '../../tests/helpers/fake-ears.ts'
import { earsLater } from './ears-later.ts'

test('what was asked before the ears came is done when they come, in order', async () => {
  const real = fakeEars(fakeClock())
  let resolve: (loaded: typeof real) => void = () => {}
  const promise = new Promise<typeof real>((come) => {
    resolve = come
  })
  const ears = earsLater(promise)
  const states: string[] = []
  ears.onState(({ kind }) => states.push(kind))
  ears.start('en')
  ears.gate()
  expect(ears.state().kind).toBe('starting')
  resolve(real)
  await promisesRun()
  expect(real.language).toBe('en')
  expect(ears.state().kind).toBe('gated')
  ears.open()
  expect(states.at(-1)).toBe('listening')
  const heard: string[] = []
  ears.onHeard(({ alternatives }) => heard.push(alternatives[0]?.words ?? ''))
  real.say('next')
  expect(heard).toEqual(['next'])
})

test('before anybody wants them they are off', () => {
  const ears = earsLater(new Promise(() => {}))
  expect(ears.state().kind).toBe('off')
  ears.start('en')
  ears.stop()
  expect(ears.state().kind).toBe('off')
})
