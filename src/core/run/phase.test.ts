import { describe, expect, it, test } from 'vitest'
import { carriedRun, DONE, type CarriedRun } from '../../../tests/helpers/a-run.ts'
import { aCourse } from '../../../tests/helpers/a-procedure.ts'
import { phaseOf } from './phase.ts'

const phase = (run: CarriedRun, lane: string) => phaseOf(run.course, run.run(), lane, run.at()).kind
const acknowledge = (lane: string) => ({ type: 'acknowledge-wait', lane }) as const

/** One side with a wait of one to three minutes, then a step of 20 seconds. */
function soaking(after = '{step: drain, on: left, say: Drain it., hands: 20 s}'): CarriedRun {
  return carriedRun(
    aCourse(`  - stage: A
    steps:
      - {step: soak, on: left, say: Soak it., hands: 10 s, wait: {for: contact, at least: 1 min, at most: 3 min, source: Label}}
      - ${after}`)
  ).do(DONE)
}

describe('a wait', () => {
  it('is over at its last millisecond and not before', () => {
    const run = soaking()
    expect(phase(run, 'left')).toBe('waiting')
    expect(phase(run.pass(59.999), 'left')).toBe('waiting')
    expect(phase(run.pass(0.001), 'left')).toBe('ready')
  })
})

describe('a longest time', () => {
  it('is missed when nobody answered by then', () => {
    const run = soaking().pass(180)
    expect(phase(run, 'left')).toBe('ready')
    expect(phase(run.pass(0.001), 'left')).toBe('late')
  })

  it('leaves time to finish the next step, twice what it takes, when the alarm was answered in time', () => {
    const run = soaking().pass(180).do(acknowledge('left')).pass(40)
    expect(phase(run, 'left')).toBe('ready')
    expect(phase(run.pass(0.001), 'left')).toBe('late')
  })

  it('leaves no such time when the alarm was answered too late', () => {
    const run = soaking().pass(181).do(acknowledge('left'))
    expect(phase(run, 'left')).toBe('late')
  })

  it('is settled by a correction, and the step may be done then', () => {
    const run = soaking().pass(300).do(acknowledge('left'))
    expect(run.do(DONE).events().at(-1)).toMatchObject({ type: 'refused', reason: 'needs-correction' })
    run.do({ type: 'correct', lane: 'left', action: 'Tested it.' })
    expect(phase(run.pass(3600), 'left')).toBe('ready')
    run.do(DONE)
    expect(run.run().lanes['left']).toMatchObject({ position: 2 })
  })

  it('begins anew when the correction starts again', () => {
    const run = carriedRun(
      aCourse(`  - stage: A
    steps:
      - {step: rinse, on: left, say: Rinse it., hands: 10 s}
      - {step: soak, on: left, say: Soak it., hands: 10 s, wait: {for: contact, at least: 1 min, at most: 3 min, source: Label, late: {say: Start again., redo: rinse}}}
      - {step: drain, on: left, say: Drain it., hands: 20 s}`)
    )
    run.do(DONE, DONE).pass(200).do(acknowledge('left'), { type: 'correct', lane: 'left', action: 'Started again.' })
    expect(run.run().lanes['left']).toMatchObject({ position: 0, waiting: null })
    run.do(DONE, DONE)
    expect(run.run().lanes['left']?.waiting).toMatchObject({
      round: 2,
      due: run.at() + 60_000,
      latest: run.at() + 180_000
    })
    run.pass(60).do(acknowledge('left'), DONE)
    expect(run.run().status).toBe('finished')
  })

  it('leaves time to finish the whole-machine step that comes next, where no step of its own does', () => {
    const run = soaking('{step: power, on: whole machine, say: Power off., hands: 60 s}')
    run.pass(170).do(acknowledge('left'))
    expect(phase(run, 'machine')).toBe('ready')
    run.pass(60)
    expect(phase(run, 'left')).not.toBe('late')
    expect(run.do(DONE).run().lanes['machine']?.position).toBe(1)
  })

  it('is kept once the whole-machine step was done in time, because nobody can start again behind it', () => {
    const run = soaking(
      '{step: power, on: whole machine, say: Power off., hands: 60 s}\n      - {step: drain, on: left, say: Drain it., hands: 5 s}'
    )
    run.pass(170).do(acknowledge('left')).pass(60)
    expect(phase(run, 'machine')).toBe('ready')
    expect(phase(run.do(DONE).pass(3600), 'left')).toBe('ready')
  })

  it('is missed when the whole-machine step was not begun in time', () => {
    const run = soaking(
      '{step: power, on: whole machine, say: Power off., hands: 10 s}\n      - {step: drain, on: left, say: Drain it., hands: 5 s}'
    )
    run.pass(170).do(acknowledge('left')).pass(31)
    expect([phase(run, 'left'), phase(run, 'machine')]).toEqual(['late', 'at-barrier'])
  })

  it('limits nothing where nothing follows and the alarm was answered in time', () => {
    const run = soaking('{step: other, on: right, say: Other., hands: 20 s}')
      .pass(100)
      .do(acknowledge('left'))
      .pass(900)
    expect(phase(run, 'left')).toBe('finished')
    expect(run.do(DONE).run().status).toBe('finished')
  })

  it('is missed where nothing follows and nobody answered', () => {
    const run = soaking('{step: other, on: right, say: Other., hands: 20 s}').pass(181)
    expect(phase(run, 'left')).toBe('late')
  })
})

describe('a whole-machine step', () => {
  const course = aCourse(`  - stage: A
    steps:
      - {step: soak, say: Soak it., hands: 10 s, wait: {for: soak, at least: 1 min, source: Label}}
      - {step: tray, on: bench, say: Scrub., hands: 10 s}
      - {step: power, on: whole machine, say: Power off., hands: 5 s, wait: {for: settle, at least: 30 s, source: Label}}
      - {step: strip, say: Strip., hands: 10 s}`)
  const all = (run: CarriedRun) => ['left', 'right', 'bench', 'machine'].map((lane) => phase(run, lane))

  it('is held up by steps to do, by waits and by stops, and holds up what comes after it', () => {
    const run = carriedRun(course)
    expect(all(run)).toEqual(['ready', 'ready', 'ready', 'at-barrier'])
    run.do(DONE, DONE, DONE)
    expect(all(run)).toEqual(['waiting', 'waiting', 'finished', 'at-barrier'])
    run.do({ type: 'report-problem', lane: 'right', text: 'Leak' }).pass(60)
    expect(all(run)).toEqual(['at-barrier', 'stopped', 'finished', 'at-barrier'])
    run.do(acknowledge('left'), acknowledge('right'), { type: 'correct', lane: 'right', action: 'Tightened.' })
    expect(all(run)).toEqual(['at-barrier', 'at-barrier', 'finished', 'ready'])
    run.do(DONE)
    expect(all(run)).toEqual(['at-barrier', 'at-barrier', 'finished', 'waiting'])
    run.pass(30).do(acknowledge('machine'))
    expect(all(run)).toEqual(['ready', 'ready', 'finished', 'finished'])
  })
})

describe('a tool', () => {
  test('that is in use holds up other lanes, through a wait, until it is put back', () => {
    const run = carriedRun(
      aCourse(
        `  - stage: A
    steps:
      - {step: fill, say: Fill., hands: 10 s, take: [pail], wait: {for: soak, at least: 1 min, source: Label}}
      - {step: empty, say: Empty., hands: 10 s, free: [pail]}`,
        'tools: [{id: pail, name: Pail}]'
      )
    )
    run.do(DONE)
    expect(phaseOf(run.course, run.run(), 'right', run.at())).toMatchObject({
      kind: 'tool-in-use',
      tool: 'pail',
      holders: ['left']
    })
    run.pass(60).do(acknowledge('left'))
    expect(phase(run, 'right')).toBe('tool-in-use')
    run.do(DONE)
    expect(phase(run, 'right')).toBe('ready')
  })
})
