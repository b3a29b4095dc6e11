import { describe, expect, it } from 'vitest'
import { carriedRun, DONE, UNDERSTOOD } from '../../../tests/helpers/a-run.ts'
import { aCourse, aProcedure, EVERYTHING } from '../../../tests/helpers/a-procedure.ts'
import { counting, STARTED } from '../../../tests/helpers/stamping.ts'
import { layOut } from '../procedure/course.ts'
import { decide } from './decide.ts'
import type { RunEvent, RunFact } from './event.ts'
import { advance, emptyRun, reduce, replay } from './reduce.ts'

const TWO = aCourse(`  - stage: A
    steps:
      - {step: one, say: One., hands: 10 s}
      - {step: two, say: Two., hands: 10 s, wait: {for: soak, at least: 1 min, source: Label}}
      - {step: three, say: Three., hands: 10 s}`)

const tablet = counting('tablet')
const phone = counting('phone')
const done = (lane: string, step: string, round = 1): RunFact => ({
  type: 'step-done',
  lane,
  step,
  round,
  confirmation: 'everyday'
})
const seen = (course: typeof TWO, events: readonly RunEvent[]) => {
  const run = replay(course, 'run', events)
  const positions = Object.fromEntries(Object.entries(run.lanes).map(([lane, { position }]) => [lane, position]))
  return { status: run.status, positions, setAside: run.setAside.map(({ id }) => id) }
}

describe('two devices on one run', () => {
  const start = tablet(0)(STARTED)

  it('count a step once that both have done, and keep the other for the record', () => {
    const first = tablet(1000)(done('left', 'one'))
    const second = phone(1500)(done('left', 'one'))
    const { positions, setAside } = seen(TWO, [start, first, second])
    expect(positions['left']).toBe(1)
    expect(setAside).toEqual([second.id])
  })

  it('agree, whatever came first to whom', () => {
    const events = [
      start,
      tablet(1000)(done('left', 'one')),
      phone(2000)(done('right', 'one')),
      tablet(3000)(done('left', 'two')),
      phone(3000)(done('left', 'two'))
    ]
    const here = replay(TWO, 'run', events)
    expect(replay(TWO, 'run', [...events].reverse())).toEqual(here)
    expect(replay(TWO, 'run', [...events.slice(2), ...events, ...events.slice(0, 2)])).toEqual(here)
    // At one moment the device with the smaller name comes first: its wait is the one that counts.
    expect(here.progress.at(-1)?.device).toBe('phone')
    expect(here.setAside.map(({ device }) => device)).toEqual(['tablet'])
  })

  it('do not let a step in that came before the wait of another device was over', () => {
    const early = phone(50_000)(done('left', 'three'))
    const events = [start, tablet(1000)(done('left', 'one')), tablet(2000)(done('left', 'two')), early]
    expect(seen(TWO, events)).toMatchObject({ positions: { left: 2 }, setAside: [early.id] })
    expect(seen(TWO, [...events, phone(62_000)(done('left', 'three'))]).positions['left']).toBe(3)
  })

  it('take back what the other one did, and set aside what was built on it', () => {
    const one = tablet(1000)(done('left', 'one'))
    const back = phone(2000)({ type: 'taken-back', cancels: one.id })
    const two = tablet(3000)(done('left', 'two'))
    expect(seen(TWO, [start, one, back, two])).toMatchObject({ positions: { left: 0 }, setAside: [two.id] })
    expect(seen(TWO, [two, back, one, start])).toMatchObject({ positions: { left: 0 }, setAside: [two.id] })
  })

  it('take one thing back once', () => {
    const one = tablet(1000)(done('left', 'one'))
    const back = phone(2000)({ type: 'taken-back', cancels: one.id })
    const backAgain = tablet(2500)({ type: 'taken-back', cancels: one.id })
    expect(seen(TWO, [start, one, back, backAgain])).toMatchObject({ positions: { left: 0 }, setAside: [backAgain.id] })
  })

  it('take back only what counted', () => {
    const two = tablet(1000)(done('left', 'two'))
    const back = phone(2000)({ type: 'taken-back', cancels: start.id })
    const backOfNothing = phone(2500)({ type: 'taken-back', cancels: two.id })
    expect(seen(TWO, [start, two, back, backOfNothing])).toEqual({
      status: 'running',
      positions: { left: 0, right: 0 },
      setAside: [two.id, back.id, backOfNothing.id]
    })
  })

  it('take nothing back before it has happened', () => {
    const one = tablet(2000)(done('left', 'one'))
    const back = phone(1000)({ type: 'taken-back', cancels: one.id })
    expect(seen(TWO, [start, back, one])).toMatchObject({ positions: { left: 1 }, setAside: [back.id] })
  })
})

describe('a bad answer', () => {
  it('is not made to disappear by a device that takes it back', () => {
    const course = aCourse(`  - stage: A
    steps: [{step: look, say: Look., hands: 5 s, ask: {question: Is it clear?, if not: [Rinse it.]}}]`)
    const start = tablet(0)(STARTED)
    const bad = tablet(1000)({
      type: 'check-answered',
      lane: 'left',
      step: 'look',
      round: 1,
      answer: { kind: 'yes-no', value: 'no' },
      good: false
    })
    const back = phone(2000)({ type: 'taken-back', cancels: bad.id })
    const run = replay(course, 'run', [start, bad, back])
    expect(run.lanes['left']?.stop).toMatchObject({ kind: 'bad-answer', eventId: bad.id })
    expect(run.setAside).toEqual([back])
  })
})

describe('after the end', () => {
  const finished = () => {
    const run = carriedRun(
      aCourse(
        '  - {stage: A, steps: [{step: one, on: bench, say: One., hands: 5 s}, {step: two, on: bench, say: Two., hands: 5 s}]}'
      )
    )
    return run.pass(1).do(DONE).pass(1).do(DONE)
  }

  it('everything else is set aside, from whichever device', () => {
    const run = finished()
    expect(run.run()).toMatchObject({ status: 'finished', endedAt: 1_002_000 })
    const late = [
      phone(1_003_000)(done('bench', 'two')),
      phone(1_004_000)({ type: 'paused' }),
      phone(1_005_000)({ type: 'problem-reported', lane: 'bench', text: 'Leak' }),
      phone(1_006_000)({ type: 'run-abandoned', reason: 'Flood' }),
      phone(1_007_000)({ type: 'run-finished' })
    ]
    const after = replay(run.course, 'run', [...run.events(), ...late])
    expect(after).toEqual({ ...run.run(), setAside: late })
  })

  it('nothing is taken back: the record is closed', () => {
    const run = finished()
    const two = run.events().find((event) => event.type === 'step-done' && event.step === 'two')
    const back = phone(1_003_000)({ type: 'taken-back', cancels: two?.id ?? '' })
    expect(replay(run.course, 'run', [...run.events(), back])).toEqual({ ...run.run(), setAside: [back] })
  })

  it('an attempt is still on record and changes nothing', () => {
    const run = finished()
    const decision = decide(run.course, run.run(), DONE, run.at(), phone(run.at()))
    expect(decision).toMatchObject({ kind: 'refused', refusal: { reason: 'run-over' } })
    expect(replay(run.course, 'run', [...run.events(), ...decision.events])).toEqual(run.run())
  })

  it('a step that another device did before the end, told later, is taken in where it belongs', () => {
    const run = finished()
    const earlier = phone(1_000_500)(done('bench', 'one'))
    const after = replay(run.course, 'run', [...run.events(), earlier])
    expect(after.status).toBe('finished')
    expect(after.progress[0]).toEqual(earlier)
  })
})

it('takes no event in before the start, and no second start', () => {
  const early = tablet(500)(done('left', 'one'))
  const start = tablet(1000)(STARTED)
  const again = phone(2000)(STARTED)
  const run = replay(TWO, 'run', [early, start, again])
  expect(run).toMatchObject({ status: 'running', startedAt: 1000, from: { site: 'Corner shop' } })
  expect(run.setAside).toEqual([early, again])
})

describe('a colleague who takes over', () => {
  it('has not heard the caution of the step in hand', () => {
    const run = carriedRun(layOut(aProcedure(EVERYTHING)))
    run.do(DONE, UNDERSTOOD)
    expect(run.call()).toMatchObject({ kind: 'step', lane: 'left' })
    run.do({ type: 'hand-over', to: 'Ben' })
    expect(run.call()).toMatchObject({ kind: 'caution', lane: 'left' })
    expect(run.run().crew.map(({ name }) => name)).toEqual(['Ben'])
  })
})

describe('ids that mean something to JavaScript', () => {
  const course = aCourse(
    '  - {stage: A, steps: [{step: constructor, say: One., hands: 5 s, take: [constructor], free: [constructor]}]}',
    'tools: [{id: constructor, name: Tool}]'
  )

  it('are ids like any other', () => {
    const run = carriedRun(course).do(DONE)
    expect(run.events().at(-2)).toMatchObject({ type: 'step-done', step: 'constructor', round: 1 })
    expect(run.do(DONE).run().status).toBe('finished')
  })

  it.each(['constructor', 'toString', '__proto__'])('are no lane: %s', (lane) => {
    const start = tablet(0)(STARTED)
    const facts: RunFact[] = [
      { type: 'lane-chosen', lane },
      { type: 'problem-reported', lane, text: 'odd' },
      { type: 'corrected', lane, action: 'mended', redo: null },
      { type: 'wait-acknowledged', lane, step: 'constructor', round: 1 },
      done(lane, 'constructor')
    ]
    const run = replay(course, 'run', [start, ...facts.map((fact) => tablet(1000)(fact))])
    expect(run.setAside).toHaveLength(facts.length)
    expect(run).toMatchObject({ crew: [{ focus: null }], progress: [] })
  })
})

describe('one event further', () => {
  it('is the same as replaying them all, also when they come out of order', () => {
    const start = tablet(0)(STARTED)
    const late = tablet(5000)(done('left', 'one'))
    const early = phone(1000)(done('right', 'one'))
    const run = advance(TWO, emptyRun(TWO, 'run'), [start, late], [start, late])
    expect(advance(TWO, run, [start, late, early], [early])).toEqual(replay(TWO, 'run', [start, early, late]))
  })

  it('looks at all that is known, not only at what came last', () => {
    const start = tablet(0)(STARTED)
    const left = tablet(5000)(done('left', 'one'))
    const right = phone(1000)(done('right', 'one'))
    const merged = [start, left, right]
    const run = replay(TWO, 'run', merged)
    // Later than the last that came, earlier than the last that happened.
    const between = phone(3000)(done('left', 'one'))
    expect(advance(TWO, run, [...merged, between], [between])).toEqual(replay(TWO, 'run', [...merged, between]))
  })

  it('sets aside a taking back that was not replayed', () => {
    const start = tablet(0)(STARTED)
    const run = reduce(TWO, emptyRun(TWO, 'run'), start)
    const back = tablet(1000)({ type: 'taken-back', cancels: start.id })
    expect(reduce(TWO, run, back).setAside).toEqual([back])
  })
})
