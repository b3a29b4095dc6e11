import { describe, expect, test } from 'vitest'
import { promisesRun } from '../../tests/helpers/fake-clock.ts'
import { webLocks, type LockGiver } from './locks-web.ts'

const nodeLocks = (globalThis.navigator as { readonly locks?: LockGiver } | undefined)?.locks ?? null

/** A browser that follows the Web Locks API as far as it matters here: a queue, and an abort only while waiting. */
function browserLocks(): LockGiver {
  const queues = new Map<string, Promise<unknown>>()
  return {
    request(name, { signal }, work) {
      const before = queues.get(name) ?? Promise.resolve()
      let waiting = true
      const givenUp = new Promise<never>((_, reject) => {
        signal?.addEventListener('abort', () => waiting && reject(signal.reason as Error))
      })
      const turn = before.then(() => {
        if (signal?.aborted) return givenUp
        waiting = false
        return work()
      })
      const mine = Promise.race([turn, givenUp])
      queues.set(
        name,
        mine.catch(() => {})
      )
      return mine
    }
  }
}

describe.each([
  { kind: 'browser locks', giver: browserLocks },
  { kind: 'no locks in the browser', giver: () => null },
  ...(nodeLocks ? [{ kind: "Node's own locks", giver: () => nodeLocks }] : [])
])('$kind', ({ giver }) => {
  test('one piece of work at a time, in order, also after one that fails', async () => {
    const locks = webLocks(giver())
    const log: string[] = []
    const work = (name: string) => async () => {
      log.push(`${name} begins`)
      await promisesRun()
      log.push(`${name} ends`)
      return name
    }
    const failing = locks.exclusively('outbox', async () => {
      await promisesRun()
      throw new Error('no network')
    })
    const both = Promise.all([locks.exclusively('outbox', work('a')), locks.exclusively('outbox', work('b'))])
    await expect(failing).rejects.toThrow('no network')
    expect(await both).toEqual(['a', 'b'])
    expect(log).toEqual(['a begins', 'a ends', 'b begins', 'b ends'])
  })

  test('work under different names does not wait', async () => {
    const locks = webLocks(giver())
    let finish = () => {}
    const held = locks.exclusively('one', () => new Promise<void>((resolve) => (finish = resolve)))
    expect(await locks.exclusively('other', async () => 'done')).toBe('done')
    finish()
    await held
  })

  test('a held name passes on when released, and a waiter that gave up is left out', async () => {
    const locks = webLocks(giver())
    const log: string[] = []
    const releaseFirst = locks.hold('microphone', () => log.push('first'))
    await promisesRun()
    const giveUp = locks.hold('microphone', () => log.push('gave up'))
    const releaseThird = locks.hold('microphone', () => log.push('third'))
    await promisesRun()
    expect(log).toEqual(['first'])
    giveUp()
    releaseFirst()
    await promisesRun()
    await promisesRun()
    expect(log).toEqual(['first', 'third'])
    releaseThird()
  })

  test('giving up at once never holds', async () => {
    const locks = webLocks(giver())
    locks.hold('microphone', () => expect.unreachable())()
    await promisesRun()
    expect(await locks.exclusively('microphone', async () => 'free')).toBe('free')
  })
})

test('says how far it reaches', () => {
  expect(webLocks(browserLocks()).reach).toBe('all-tabs')
  expect(webLocks(null).reach).toBe('this-tab')
})

test('goes on alone, and says so, where the browser forbids asking', async () => {
  const locks = webLocks({ request: () => Promise.reject(new DOMException('opaque origin', 'SecurityError')) })
  let held = false
  locks.hold('microphone', () => (held = true))
  await promisesRun()
  expect(held).toBe(true)
  expect(locks.reach).toBe('this-tab')
  await expect(locks.exclusively('outbox', async () => 7)).resolves.toBe(7)
})

test('work that fails under a lock is not done twice', async () => {
  let times = 0
  const work = async () => {
    times++
    throw new Error('no network')
  }
  await expect(webLocks(browserLocks()).exclusively('outbox', work)).rejects.toThrow('no network')
  expect(times).toBe(1)
})
