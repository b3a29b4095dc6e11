import { describe, expect, test } from 'vitest'
import { promisesRun } from '../../tests/helpers/fake-clock.ts'
import { fakeContainer, fakeServiceWorker, type FakeContainer } from '../../tests/helpers/fake-service-worker.ts'
import { serviceWorkerUpdates } from './page-updates-service-worker.ts'

function world(container: FakeContainer = fakeContainer()) {
  const updates = serviceWorkerUpdates({ container, secure: true })
  const told: string[] = []
  let taken = 0
  updates.onState(({ kind }) => told.push(kind))
  updates.onTaken(() => (taken += 1))
  return { container, updates, told, taken: () => taken }
}

/** A page of a device that has a version in service. */
async function inService() {
  const container = fakeContainer()
  const worker = fakeServiceWorker('activated')
  container.registration.active = worker
  container.control(worker)
  const here = world(container)
  here.updates.look()
  await promisesRun()
  return { ...here, worker }
}

function newerWaits({ registration }: FakeContainer) {
  const newer = fakeServiceWorker('installing')
  registration.installing = newer
  registration.dispatchEvent(new Event('updatefound'))
  registration.installing = null
  registration.waiting = newer
  newer.become('installed')
  return newer
}

describe('a first visit', () => {
  test('stores the page, says so once it is whole, and takes that for no newer version', async () => {
    const { container, updates, told, taken } = world()
    expect(updates.state()).toEqual({ kind: 'unknown' })
    const first = fakeServiceWorker('installing')
    container.registration.installing = first
    updates.look()
    updates.look()
    await promisesRun()
    expect(container.registered).toEqual([['/service-worker.js', { updateViaCache: 'none' }]])
    expect(told).toEqual([])
    container.registration.installing = null
    container.registration.waiting = first
    first.become('installed')
    expect(told).toEqual([])
    container.registration.waiting = null
    container.registration.active = first
    first.become('activating')
    container.control(first)
    first.become('activated')
    expect(told).toEqual(['ready'])
    expect(taken()).toBe(0)
  })

  test('that cannot store it says so, and the next look tries again', async () => {
    const { container, updates } = world()
    const first = fakeServiceWorker('installing')
    container.registration.installing = first
    updates.look()
    await promisesRun()
    container.registration.installing = null
    first.become('redundant')
    expect(updates.state()).toEqual({ kind: 'absent', reason: 'failed' })
    container.registration.active = fakeServiceWorker('activated')
    updates.look()
    await promisesRun()
    expect(updates.state()).toEqual({ kind: 'ready' })
  })

  test('over a certificate that was clicked through is not kept', async () => {
    const { container, updates } = world()
    container.failNext('An SSL certificate error occurred when fetching the script.')
    updates.look()
    await promisesRun()
    expect(updates.state()).toEqual({ kind: 'absent', reason: 'failed' })
  })
})

test.each([
  [false, 'insecure'],
  [true, 'unsupported']
] as const)('a browser without service workers, safe connection %s: %s', (secure, reason) => {
  const updates = serviceWorkerUpdates({ container: null, secure })
  updates.look()
  updates.take()
  expect(updates.state()).toEqual({ kind: 'absent', reason })
})

describe('a page in service', () => {
  test('looks for a newer version, and stays when the server is away', async () => {
    const { container, updates, told } = await inService()
    container.failNext('Failed to update a ServiceWorker')
    updates.look()
    await promisesRun()
    expect(container.looks).toBe(1)
    expect(told).toEqual(['ready'])
  })

  test('says that a newer one waits, asks it to take over when told, and tells when it is in service', async () => {
    const { container, updates, told, taken } = await inService()
    const newer = newerWaits(container)
    expect(told).toEqual(['ready', 'update-waiting'])
    expect(newer.messages).toEqual([])
    updates.take()
    expect(newer.messages).toEqual(['take-over'])
    container.registration.waiting = null
    container.registration.active = newer
    newer.become('activating')
    container.control(newer)
    expect(told).toEqual(['ready', 'update-waiting', 'ready'])
    expect(taken()).toBe(1)
    newer.answer('take-over')
  })

  test('says that a run in another tab holds it back, and asks again at the next touch', async () => {
    const { container, updates } = await inService()
    const newer = newerWaits(container)
    const heldBack = new Promise<void>((resolve) => {
      updates.onState(({ kind }) => kind === 'update-held-back' && resolve())
    })
    updates.take()
    newer.answer('held-back')
    await heldBack
    updates.take()
    expect(updates.state()).toEqual({ kind: 'update-waiting' })
    expect(newer.messages).toHaveLength(2)
    newer.answer('take-over')
  })

  test('a newer one still is not held back by what held the last one', async () => {
    const { container, updates } = await inService()
    const newer = newerWaits(container)
    const heldBack = new Promise<void>((resolve) => {
      updates.onState(({ kind }) => kind === 'update-held-back' && resolve())
    })
    updates.take()
    newer.answer('held-back')
    await heldBack
    newerWaits(container)
    expect(updates.state()).toEqual({ kind: 'update-waiting' })
  })

  test('one that could not be stored changes nothing', async () => {
    const { container, updates } = await inService()
    const newer = fakeServiceWorker('installing')
    container.registration.installing = newer
    container.registration.dispatchEvent(new Event('updatefound'))
    container.registration.installing = null
    newer.become('redundant')
    expect(updates.state()).toEqual({ kind: 'ready' })
  })
})
