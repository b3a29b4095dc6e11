import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { aCourse } from '../../../tests/helpers/a-procedure.ts'
import { counting, STARTED } from '../../../tests/helpers/stamping.ts'
import { makeRecord } from '../record/make-record.ts'
import type { RunEvent, RunFact } from './event.ts'
import { advance, replay } from './reduce.ts'

const COURSE = aCourse(`  - stage: A
    steps:
      - {step: one, say: One., hands: 10 s}
      - {step: two, say: Two., hands: 10 s, wait: {for: soak, at least: 1 min, source: Label}}
      - {step: three, say: Three., hands: 10 s}
      - {step: four, say: Four., hands: 10 s}`)
const MIN = 60_000

const tablet = counting('tablet')
const phone = counting('phone')
const done = (step: string, round = 1): RunFact => ({
  type: 'step-done',
  lane: 'left',
  step,
  round,
  confirmation: 'everyday'
})
const found = (since: number, byMs: number): RunFact => ({ type: 'clock-caught-up', since, byMs })
const left = (events: readonly RunEvent[]) => replay(COURSE, 'run', events).lanes['left']
const aside = (events: readonly RunEvent[]) => replay(COURSE, 'run', events).setAside.map(({ id }) => id)

describe('a device that lagged behind', () => {
  const begun = [tablet(0)(STARTED), tablet(1000)(done('one')), tablet(2000)(done('two'))]

  it('moves the waits it has begun since the answer before, with all their times', () => {
    const caughtUp = tablet(602_100)(found(1500, 600_000))
    expect(left(begun)?.waiting).toMatchObject({ since: 2000, due: 62_000, device: 'tablet' })
    expect(left([...begun, caughtUp])?.waiting).toMatchObject({ since: 602_000, due: 662_000 })
    const early = tablet(661_999)(done('three'))
    expect(aside([...begun, caughtUp, early])).toEqual([early.id])
    expect(aside([...begun, caughtUp, tablet(662_000)(done('three'))])).toEqual([])
  })

  it('moves no wait that is older, and none of another device', () => {
    expect(left([...begun, tablet(602_100)(found(2001, 600_000))])?.waiting?.due).toBe(62_000)
    expect(left([...begun, phone(602_100)(found(0, 600_000))])?.waiting?.due).toBe(62_000)
  })

  it('lets nobody wait for the hours its clock was ahead', () => {
    expect(left([...begun, tablet(2100)(found(0, -1000))])?.waiting?.due).toBe(61_000)
  })

  it('moves a wait once, however often it asks again before it goes by the answer', () => {
    const twice = [tablet(602_100)(found(1500, 600_000)), tablet(702_100)(found(1500, 700_000))]
    expect(left([...begun, ...twice])?.waiting?.due).toBe(662_000)
  })

  it('may go on by its own clock, which saw the whole wait, and find out later', () => {
    const own = [tablet(62_000)(done('three')), tablet(100_000 + 600_000)(found(1500, 600_000))]
    expect(aside([...begun, ...own])).toEqual([])
    expect(left([...begun, ...own])?.position).toBe(3)
  })
})

/**
 * At 0:10 the phone does step two. The tablet, away and ten minutes behind, takes it back and does it once more when it
 * is really 10:30, as it finds out at 12:00. The phone knows nothing of that.
 */
describe('another device that went on by the wait before', () => {
  const first = phone(10_000)(done('two'))
  const begun = [phone(0)(STARTED), phone(1000)(done('one')), first]
  const again = [
    tablet(20_000)({ type: 'taken-back', cancels: first.id }),
    tablet(30_000)(done('two')),
    tablet(12 * MIN)(found(0, 10 * MIN))
  ]
  const due = 30_000 + 10 * MIN + MIN

  it('has not gone on: what it did stays in the record, and the wait runs on for everybody', () => {
    const early = [phone(11 * MIN)(done('three')), phone(11 * MIN + 10_000)(done('four'))]
    const events = [...begun, ...early, ...again]
    expect(left(events)).toMatchObject({ position: 2, waiting: { step: 'two', due } })
    expect(aside(events)).toEqual(early.map(({ id }) => id))
    expect(makeRecord(COURSE, events)?.waits).toMatchObject([{ step: 'two', result: 'running', due }])
    expect(makeRecord(COURSE, events)?.setAside.length).toBe(2)
  })

  it('goes on when it is really over', () => {
    const events = [...begun, ...again, phone(12 * MIN + 1)(done('three'))]
    expect(aside(events)).toEqual([])
    expect(makeRecord(COURSE, events)?.waits).toMatchObject([{ result: 'kept', actualSeconds: 90.001 }])
  })

  it('is the same for all, in whatever order and in however many pieces the entries come', () => {
    const early = [phone(11 * MIN)(done('three')), phone(13 * MIN)(done('three')), phone(13 * MIN + 1)(done('four'))]
    const events = [...begun, ...early, ...again]
    const whole = replay(COURSE, 'run', events)
    const anyOrder = fc.shuffledSubarray(events, { minLength: events.length })
    fc.assert(
      fc.property(anyOrder, fc.integer({ min: 1, max: events.length }), (order, size) => {
        let known: readonly RunEvent[] = []
        let run = replay(COURSE, 'run', [])
        for (let at = 0; at < order.length; at += size) {
          const fresh = order.slice(at, at + size)
          known = [...known, ...fresh]
          run = advance(COURSE, run, known, fresh)
        }
        expect(run).toEqual(whole)
      })
    )
  })
})
