import { expect, test } from 'vitest'
import { fakeClock } from './fake-clock.ts'

test('runs timers in order of due time, at their own instants, also ones set on the way', () => {
  const clock = fakeClock(0)
  const log: string[] = []
  clock.after(300, () => log.push(`c ${clock.steady()}`))
  clock.after(100, () => {
    log.push(`a ${clock.steady()}`)
    clock.after(100, () => log.push(`b ${clock.steady()}`))
  })
  clock.after(300, () => log.push(`d ${clock.wall()}`))
  clock.advance(300)
  expect(log).toEqual(['a 100', 'b 200', 'c 300', 'd 300'])
})

test('moves its two lines apart and together', () => {
  const clock = fakeClock(1000)
  clock.after(1, () => expect.unreachable())
  clock.sleep(5000)
  expect([clock.wall(), clock.steady()]).toEqual([6000, 0])
  clock.moveWall(-2000)
  expect([clock.wall(), clock.steady()]).toEqual([4000, 0])
})

test('refuses to go back, and to be advanced from within', () => {
  const clock = fakeClock()
  expect(() => clock.advance(-1)).toThrow('time does not go back')
  expect(() => clock.sleep(-1)).toThrow('time does not go back')
  clock.after(1, () => clock.advance(1))
  expect(() => clock.advance(2)).toThrow('already advancing')
})

test('a cancelled timer does not run', () => {
  const clock = fakeClock()
  const cancel = clock.after(10, () => expect.unreachable())
  expect(clock.pending()).toBe(1)
  cancel()
  clock.advance(20)
  expect(clock.pending()).toBe(0)
})

test('pass lets promises run between timers', async () => {
  const clock = fakeClock()
  const log: string[] = []
  const pause = (ms: number) => new Promise<void>((resolve) => void clock.after(ms, resolve))
  const work = (async () => {
    await pause(10)
    log.push('first')
    await pause(10)
    log.push('second')
  })()
  await clock.pass(20)
  expect(log).toEqual(['first', 'second'])
  await work
})
