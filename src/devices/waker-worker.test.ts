import { expect, test } from 'vitest'
import { fakeClock } from '../../tests/helpers/fake-clock.ts'
import { workerWaker, type WakeOrder, type WakerWorker, type WokenUp } from './waker-worker.ts'

class FakeWorker extends EventTarget {
  readonly orders: WakeOrder[] = []
  terminated = false
  postMessage(order: WakeOrder) {
    if (this.terminated) throw new Error('This worker is terminated.')
    this.orders.push(order)
  }
  terminate() {
    this.terminated = true
  }
  answer(number: number) {
    this.dispatchEvent(Object.assign(new Event('message'), { data: { number } satisfies WokenUp }))
  }
  crash() {
    this.dispatchEvent(new Event('error'))
  }
}

function world() {
  const clock = fakeClock()
  const workers: FakeWorker[] = []
  const woken: string[] = []
  const waker = workerWaker(() => {
    const worker = new FakeWorker()
    workers.push(worker)
    return worker as unknown as WakerWorker
  }, clock)
  const last = () => {
    const worker = workers.at(-1)
    if (!worker) throw new Error('No worker was started.')
    return worker
  }
  return { clock, workers, last, woken, waker, wake: (name: string) => () => void woken.push(name) }
}

test('asks the worker, and wakes when it answers, once', () => {
  const it = world()
  it.waker.wakeIn('left', 1500, it.wake('left'))
  expect(it.last().orders).toEqual([{ kind: 'wake', number: 1, inMs: 1500 }])
  it.last().answer(1)
  it.last().answer(1)
  expect(it.woken).toEqual(['left'])
})

test('the same key replaces; an answer that was already on its way is dropped', () => {
  const it = world()
  const cancelFirst = it.waker.wakeIn('left', 1500, it.wake('first'))
  it.waker.wakeIn('left', 3000, it.wake('second'))
  expect(it.last().orders.slice(1)).toEqual([
    { kind: 'cancel', number: 1 },
    { kind: 'wake', number: 2, inMs: 3000 }
  ])
  cancelFirst()
  it.last().answer(1)
  it.last().answer(2)
  expect(it.woken).toEqual(['second'])
})

test('a cancelled waking does not wake', () => {
  const it = world()
  it.waker.wakeIn('left', 1500, it.wake('left'))()
  it.last().answer(1)
  expect(it.last().orders.at(-1)).toEqual({ kind: 'cancel', number: 1 })
  expect(it.woken).toEqual([])
})

test('a worker that crashes is replaced, with what is left of each wait; after three it rests', () => {
  const it = world()
  it.waker.wakeIn('left', 1500, it.wake('left'))
  it.clock.advance(1000)
  it.last().crash()
  expect(it.workers.map((worker) => worker.terminated)).toEqual([true, false])
  expect(it.last().orders).toEqual([{ kind: 'wake', number: 1, inMs: 500 }])
  it.clock.advance(1000)
  it.last().crash()
  expect(it.last().orders).toEqual([{ kind: 'wake', number: 1, inMs: 0 }])
  it.last().crash()
  expect(it.workers).toHaveLength(3)
  it.waker.wakeIn('right', 100, it.wake('right'))()
})

test('goes without where workers are forbidden', () => {
  let tries = 0
  const waker = workerWaker(() => {
    tries++
    throw new DOMException('blocked by policy', 'SecurityError')
  }, fakeClock())
  waker.wakeIn('left', 10, () => expect.unreachable())()
  waker.close()
  expect(tries).toBe(1)
})

test('closing ends it for good', () => {
  const it = world()
  it.waker.wakeIn('left', 1500, it.wake('left'))
  const worker = it.last()
  it.waker.close()
  worker.answer(1)
  worker.crash()
  it.waker.wakeIn('right', 10, it.wake('right'))
  expect(it.woken).toEqual([])
  expect(worker.terminated).toBe(true)
  expect(it.workers).toHaveLength(1)
})
