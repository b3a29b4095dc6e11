import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { aCourse } from '../../../tests/helpers/a-procedure.ts'
import { anyProcedureWithoutMaxima } from '../../../tests/helpers/any-procedure.ts'
import { wrongIn } from '../../../tests/helpers/run-oracle.ts'
import { counting, STARTED } from '../../../tests/helpers/stamping.ts'
import { layOut, type Course } from '../procedure/course.ts'
import { callAt } from './call.ts'
import type { Command } from './command.ts'
import { decide, type Decision } from './decide.ts'
import type { RunEvent } from './event.ts'
import { expectedCount } from './judge-answer.ts'
import { replay } from './reduce.ts'
import { handsOf } from './run.ts'

const COURSE = aCourse(`  - stage: A
    steps:
      - {step: one, say: One., hands: 10 s}
      - {step: soak, say: Soak it., hands: 10 s, wait: {for: soak, at least: 1 min, source: Label}}
      - {step: three, say: Three., hands: 10 s}
      - {step: power, on: whole machine, say: Power., hands: 10 s}
      - {step: four, say: Four., hands: 10 s}`)

/** One run and two devices, each speaking to its own hands once the second has joined. */
function twoDevices(course: Course) {
  const stamps = { tablet: counting('tablet'), phone: counting('phone') }
  let at = 1_000_000
  let events: RunEvent[] = [stamps.tablet(at)(STARTED)]
  const run = () => replay(course, 'run', events)
  return {
    run,
    events: () => events,
    at: () => at,
    pass(ms: number) {
      at += ms
    },
    call: (device: 'tablet' | 'phone') => callAt(course, run(), at, device),
    do(device: 'tablet' | 'phone', command: Command): Decision {
      at += 1
      const decision = decide(course, run(), command, at, stamps[device](at), { device, order: [] })
      events = [...events, ...decision.events]
      return decision
    }
  }
}

const DONE: Command = { type: 'done' }

describe('a second device', () => {
  it('speaks for the first pair of hands until it joins', () => {
    const it2 = twoDevices(COURSE)
    it2.do('phone', DONE)
    expect(it2.run().crew).toMatchObject([{ device: 'tablet', name: 'Ada', focus: 'left' }])
    expect(it2.call('phone')).toEqual(it2.call('tablet'))
  })

  it('has its own calls once it has joined, on a lane that nobody is on', () => {
    const both = twoDevices(COURSE)
    both.do('tablet', DONE)
    both.do('phone', { type: 'join', name: 'Ben' })
    expect(both.call('tablet')).toMatchObject({ kind: 'step', lane: 'left', place: { step: { id: 'soak' } } })
    expect(both.call('phone')).toMatchObject({ kind: 'step', lane: 'right', place: { step: { id: 'one' } } })
    both.do('phone', DONE)
    expect(both.run().lanes['right']?.position).toBe(1)
    expect(both.run().lanes['left']?.position).toBe(1)
  })

  it('is refused a lane that is in other hands', () => {
    const both = twoDevices(COURSE)
    both.do('tablet', DONE)
    both.do('phone', { type: 'join', name: 'Ben' })
    both.do('phone', { type: 'call-hands' })
    expect(both.do('phone', { type: 'choose-lane', lane: 'left' })).toMatchObject({
      refusal: { reason: 'in-other-hands', lane: 'left' }
    })
  })

  it('stands by while the other has the whole machine, and cannot mark its step', () => {
    const both = twoDevices(COURSE)
    both.do('tablet', DONE)
    both.do('phone', { type: 'join', name: 'Ben' })
    both.do('phone', { type: 'call-hands' })
    both.do('tablet', DONE)
    both.do('phone', DONE)
    both.do('phone', DONE)
    both.pass(60_000)
    both.do('tablet', { type: 'acknowledge-wait', lane: 'left' })
    both.do('phone', { type: 'acknowledge-wait', lane: 'right' })
    both.do('tablet', DONE)
    both.do('phone', DONE)
    // The last to arrive is there already.
    expect(both.call('phone')).toMatchObject({ kind: 'step', lane: 'machine' })
    expect(both.call('tablet')).toEqual({ kind: 'stand-by', lane: 'machine', hands: 'phone' })
    expect(both.do('tablet', DONE)).toMatchObject({ refusal: { reason: 'in-other-hands', lane: 'machine' } })
    both.do('phone', DONE)
    expect(both.call('tablet')).toMatchObject({ kind: 'step', place: { step: { id: 'four' } } })
  })

  it('hears the alarm of its own waits at once, and that of the others only when nobody answers', () => {
    const both = twoDevices(COURSE)
    both.do('tablet', DONE)
    both.do('phone', { type: 'join', name: 'Ben' })
    both.do('phone', { type: 'call-hands' })
    both.do('tablet', DONE)
    const due = both.run().lanes['left']?.waiting?.due ?? 0
    both.pass(due - both.at())
    expect(both.call('tablet').kind).toBe('alarm')
    expect(both.call('phone')).toMatchObject({ kind: 'step', lane: 'right' })
    both.pass(20_000)
    expect(both.call('phone')).toMatchObject({ kind: 'alarm', lane: 'left' })
  })

  it('may leave, and then the one who stays does everything', () => {
    const both = twoDevices(COURSE)
    both.do('phone', { type: 'join', name: 'Ben' })
    both.do('phone', { type: 'call-hands' })
    const lane = handsOf(both.run(), 'phone').focus
    both.do('tablet', { type: 'leave', hands: 'phone' })
    expect(both.run().crew.map(({ name }) => name)).toEqual(['Ada'])
    expect(both.do('tablet', { type: 'choose-lane', lane: lane ?? '' }).kind).toBe('accepted')
    expect(both.do('tablet', { type: 'leave', hands: 'tablet' })).toMatchObject({ refusal: { reason: 'only-hands' } })
  })

  it('takes over for good when the device that began is gone', () => {
    const both = twoDevices(COURSE)
    both.do('phone', { type: 'join', name: 'Ben' })
    both.do('phone', { type: 'leave', hands: 'tablet' })
    expect(both.call('phone')).toMatchObject({ kind: 'step' })
    expect(both.call('tablet')).toEqual(both.call('phone'))
  })
})

test('two that are sent to one lane before they know of each other: the first keeps it', () => {
  const [tablet, phone] = [counting('tablet'), counting('phone')]
  const started = tablet(0)(STARTED)
  const run = replay(COURSE, 'run', [
    started,
    phone(1)({ type: 'joined', name: 'Ben' }),
    phone(2)({ type: 'lane-called', lane: 'left' }),
    tablet(3)({ type: 'lane-called', lane: 'left' })
  ])
  expect(callAt(COURSE, run, 4, 'tablet')).toMatchObject({ kind: 'step', lane: 'left' })
  expect(callAt(COURSE, run, 4, 'phone')).toMatchObject({ kind: 'step', lane: 'right' })
})

test('two sensible pairs of hands reach the end of every valid procedure, with nothing cut short', () => {
  fc.assert(
    fc.property(anyProcedureWithoutMaxima, fc.infiniteStream(fc.boolean()), (procedure, turns) => {
      const course = layOut(procedure)
      const both = twoDevices(course)
      both.do('phone', { type: 'join', name: 'Ben' })
      for (let moves = 0; both.run().status !== 'finished'; moves += 1) {
        expect(moves, JSON.stringify([both.call('tablet'), both.call('phone')])).toBeLessThan(3000)
        const device = turns.next().value === true ? 'tablet' : 'phone'
        both.pass(1000)
        both.do(device, { type: 'call-hands' })
        const call = both.call(device)
        if (call.kind === 'all-waiting') both.pass(Math.max(0, call.until - both.at()))
        const command = sensible(course, call)
        if (command) expect(both.do(device, command).kind, JSON.stringify(command)).toBe('accepted')
      }
      expect(wrongIn(procedure, both.events())).toEqual([])
    }),
    { numRuns: 60 }
  )
})

function sensible(course: Course, call: ReturnType<typeof callAt>): Command | null {
  switch (call.kind) {
    case 'alarm':
      return { type: 'acknowledge-wait', lane: call.lane }
    case 'caution':
      return { type: 'understood' }
    case 'stopped':
    case 'late':
      return { type: 'correct', lane: call.lane, action: 'mended' }
    case 'step': {
      const { check, confirm } = call.place.step
      if (check?.kind === 'yes-no') return { type: 'answer', answer: { kind: 'yes-no', value: check.good } }
      if (check?.kind === 'reading')
        return { type: 'answer', answer: { kind: 'reading', value: check.min ?? check.max ?? 0, unit: check.unit } }
      if (check) {
        return {
          type: 'answer',
          answer: { kind: 'count', value: expectedCount(course.procedure, call.lane, check.parts) }
        }
      }
      return confirm ? { type: 'confirm', how: 'phrase' } : DONE
    }
    default:
      return null
  }
}
