import { expect, test } from 'vitest'
import { aCourse } from '../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE } from '../../tests/helpers/a-run.ts'
import { fakeAlarm } from '../../tests/helpers/fake-alarm.ts'
import { fakeClock } from '../../tests/helpers/fake-clock.ts'
import { fakeWaker } from '../../tests/helpers/fake-waker.ts'
import { watchAlarms } from './alarm-watch.ts'
import type { Speaker } from './speaker.ts'

const WAIT_MS = 120_000
const course = aCourse(`  - stage: Clean
    steps:
      - {step: fill, on: [left], say: Fill the hopper., hands: 5 s, wait: {for: soak, at least: 2 min, source: Common practice}}`)

/** A watch over one wait that has just begun; `putBack` is what an answer of the server does to the page's time. */
function watched() {
  const clock = fakeClock()
  const alarm = fakeAlarm(clock)
  const waker = fakeWaker(clock)
  const carried = carriedRun(course).do(DONE)
  let backMs = 0
  const speaking: { over: () => void } = { over: () => {} }
  const quiet = () => new Promise<void>((over) => (speaking.over = over))
  const speaker = { over: (sound: () => Promise<void>) => sound(), quiet } as Speaker
  const watch = watchAlarms({ alarm, waker, clock }, speaker, {
    device: carried.run().crew[0]?.device ?? '',
    now: () => carried.at() + clock.steady() - backMs,
    wake: () => {},
    speak: () => {}
  })
  watch.reset(carried.run())
  return { clock, alarm, waker, watch, speaking, putBack: (ms: number) => (backMs = ms) }
}

test('rings at the due time', () => {
  const { clock, alarm } = watched()
  clock.advance(WAIT_MS - 1)
  expect(alarm.rings).toEqual([])
  clock.advance(1)
  expect(alarm.rings).toEqual([0])
})

test('a time put back since the paths were set moves the alarm by just that', () => {
  const { clock, alarm, putBack } = watched()
  putBack(3)
  clock.advance(WAIT_MS + 2)
  expect(alarm.rings).toEqual([])
  clock.advance(1)
  expect(alarm.rings).toEqual([0])
})

test('the worker is told of a time put back as well', () => {
  const { clock, alarm, waker, putBack } = watched()
  putBack(3)
  clock.advance(WAIT_MS)
  const [key = ''] = Object.keys(waker.due())
  expect(waker.due()).toEqual({ [key]: WAIT_MS + 3 })
  clock.advance(3)
  expect(alarm.rings).toEqual([0])
})

test('nothing is woken after the watch has stopped', () => {
  const { clock, alarm, waker, watch } = watched()
  watch.stop()
  expect(waker.due()).toEqual({})
  clock.advance(2 * WAIT_MS)
  expect(alarm.rings).toEqual([])
})

test('rings again only after its words, and a silence in which somebody can answer', async () => {
  const { clock, alarm, speaking } = watched()
  await clock.pass(WAIT_MS)
  alarm.finish()
  await clock.pass(10_000)
  expect(alarm.rings).toEqual([0])
  speaking.over()
  await clock.pass(3999)
  expect(alarm.rings).toEqual([0])
  await clock.pass(1)
  expect(alarm.rings).toEqual([0, 1])
})

test('words that never end do not silence it', async () => {
  const { clock, alarm } = watched()
  await clock.pass(WAIT_MS)
  alarm.finish()
  await clock.pass(15_000)
  expect(alarm.rings).toEqual([0, 1])
})
