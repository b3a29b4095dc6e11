import { expect, test } from 'vitest'
import { promisesRun } from '../../tests/helpers/fake-clock.ts'
import { microphonePermission, type MicrophonePermission } from './microphone-permission.ts'

test('looks, and tells of changes', async () => {
  const first: { state: 'prompt' | 'granted' | 'denied' } = { state: 'prompt' }
  const status = Object.assign(new EventTarget(), first)
  const permission = microphonePermission({ query: async () => status })
  const told: MicrophonePermission[] = []
  permission.onChange((now) => told.push(now))
  expect(permission.now()).toBe('unknown')
  await promisesRun()
  status.state = 'granted'
  status.dispatchEvent(new Event('change'))
  status.dispatchEvent(new Event('change'))
  expect(told).toEqual(['prompt', 'granted'])
})

test('stays unknown where the browser does not tell', async () => {
  const refusing = microphonePermission({ query: () => Promise.reject(new TypeError('microphone is not a name')) })
  await promisesRun()
  expect(refusing.now()).toBe('unknown')
  expect(microphonePermission(null).now()).toBe('unknown')
})
