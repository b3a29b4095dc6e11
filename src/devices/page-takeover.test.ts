import { expect, test } from 'vitest'
import { VOICE_LOCK } from '../ports/locks.ts'
import { askToTakeOver, takeOverIfAsked, type TakeOverParts } from './page-takeover.ts'

/** Web Locks as far as a worker uses them here: `ifAvailable` gives null at once when somebody has the lock. */
function locks(held: readonly string[]): NonNullable<TakeOverParts['locks']> {
  return {
    request: (async (name: string, options: LockOptions, work: (lock: Lock | null) => Promise<unknown>) => {
      expect(options).toEqual({ ifAvailable: true })
      return work(held.includes(name) ? null : { name, mode: 'exclusive' })
    }) as unknown as LockManager['request']
  }
}

/** A page and a waiting worker that really pass messages; resolves with what the page was told. */
async function ask(parts: Pick<TakeOverParts, 'locks'>, how: typeof askToTakeOver = askToTakeOver) {
  let skipped = 0
  let heldBack = 0
  const given: Promise<void>[] = []
  const worker = {
    postMessage(data: unknown, ports: readonly MessagePort[]) {
      const skipWaiting = async () => void (skipped += 1)
      given.push(takeOverIfAsked({ data, ports }, { ...parts, skipWaiting }))
      ports[0]?.addEventListener('close', () => closed())
    }
  } as unknown as ServiceWorker
  let closed = () => {}
  const answered = new Promise<void>((resolve) => (closed = resolve))
  how(worker, () => {
    heldBack += 1
  })
  await Promise.all(given)
  await answered
  return { skipped, heldBack }
}

test('takes over when no tab has a run open', async () => {
  expect(await ask({ locks: locks([]) })).toEqual({ skipped: 1, heldBack: 0 })
  expect(await ask({ locks: locks(['outbox']) })).toEqual({ skipped: 1, heldBack: 0 })
})

test('does not while one has, and says so', async () => {
  expect(await ask({ locks: locks([VOICE_LOCK]) })).toEqual({ skipped: 0, heldBack: 1 })
})

test('does not where it cannot know', async () => {
  expect(await ask({ locks: null })).toEqual({ skipped: 0, heldBack: 1 })
})

test('other messages mean nothing', async () => {
  let skipped = 0
  await takeOverIfAsked(
    { data: 'hello', ports: [] },
    { locks: locks([]), skipWaiting: async () => void (skipped += 1) }
  )
  expect(skipped).toBe(0)
})
