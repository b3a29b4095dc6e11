import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { aCourse, aProcedure, EVERYTHING } from '../../../tests/helpers/a-procedure.ts'
import { carriedRun, DONE } from '../../../tests/helpers/a-run.ts'
import { shuffled } from '../../../tests/helpers/any-event.ts'
import { counting, STARTED } from '../../../tests/helpers/stamping.ts'
import { timedRun } from '../../../tests/plan/times/timed-run.ts'
import { layOut } from '../procedure/course.ts'
import type { Answer, RunEvent, RunFact } from '../run/event.ts'
import { FIELD_SET } from './field-set.ts'
import { makeRecord } from './make-record.ts'
import { textFor } from '../talk/quantities.ts'
import { recordLines } from './record-lines.ts'
import type { RunRecord } from './run-record.ts'
import { recordWordsEn } from './words.en.ts'

const EN = { words: recordWordsEn, language: 'en' }

const COURSE = aCourse(`  - stage: Clean
    steps:
      - step: sanitize
        say: Pour in the sanitizer.
        hands: 20 s
        wait: {for: contact, at least: 1 min, at most: 3 min, source: Product label, late: {say: Start again., redo: sanitize}}
      - step: strength
        say: Dip a strip.
        hands: 15 s
        read: {question: What does it read?, reading: strength, unit: ppm, at least: 100, at most: 200, source: The label, if not: [Remix it.]}`)

const ppm = (value: number): Answer => ({ kind: 'reading', value, unit: '[ppm]' })
const answer = (value: number) => ({ type: 'answer', answer: ppm(value) }) as const

function recordOf(events: readonly RunEvent[], course = COURSE): RunRecord {
  const record = makeRecord(course, events)
  if (!record) throw new Error('There is no record.')
  return record
}

/** Entries long after the run, by somebody else's device. */
function later(events: readonly RunEvent[], ...facts: readonly RunFact[]): readonly RunEvent[] {
  const stamp = counting('office')
  return [...events, ...facts.map((fact, index) => ({ ...stamp(9_000_000 + index)(fact), by: 'Sue' }))]
}

/** Both sides: poured in, an attempt on the left, waited, read; bad once on the left. */
function bothSides() {
  const run = carriedRun(COURSE)
  run.pass(30).do(DONE).pass(30).do(DONE)
  // Left has 30 s to go.
  run.do({ type: 'choose-lane', lane: 'left' })
  run.pass(30).do({ type: 'acknowledge-wait', lane: 'left' })
  run.pass(20).do(answer(80))
  run.pass(40).do({ type: 'correct', lane: 'left', action: 'Remix it.' }).pass(20).do(answer(150))
  run.do({ type: 'acknowledge-wait', lane: 'right' }).pass(10).do(answer(120))
  return run
}

describe('the record of a run', () => {
  test('says who did what on which machine, when, and by which version', () => {
    const run = bothSides()
    expect(run.run().status).toBe('finished')
    const record = recordOf(run.events())
    expect(record).toMatchObject({
      site: 'Corner shop',
      machine: 'Freezer 1',
      zone: 'America/Chicago',
      procedure: { id: 'test-machine', version: 'hash' },
      operators: ['Ada'],
      startedAt: 1_000_000,
      endedAt: run.at(),
      status: 'complete',
      review: 'unsigned',
      entries: run.events().length
    })
    expect(
      record.steps.map(({ lane, step, plannedSeconds, actualSeconds }) => [lane, step, plannedSeconds, actualSeconds])
    ).toEqual([
      ['left', 'sanitize', 20, 30],
      // Going over to the other side takes five seconds, which are no work.
      ['right', 'sanitize', 20, 25],
      ['left', 'strength', 15, 20],
      // Putting it right broke into this one.
      ['left', 'strength', 15, null],
      ['right', 'strength', 15, expect.any(Number)]
    ])
  })

  test('shows each wait with what was asked and what was kept, and each attempt to cut it short', () => {
    const record = recordOf(bothSides().events())
    expect(record.waits).toMatchObject([
      {
        lane: 'left',
        kind: 'contact',
        minSeconds: 60,
        maxSeconds: 180,
        since: 1_030_000,
        due: 1_090_000,
        endedAt: 1_090_000,
        actualSeconds: 60,
        result: 'kept',
        by: 'Ada'
      },
      { lane: 'right', minSeconds: 60, since: 1_060_000, result: 'kept' }
    ])
    expect(record.refused).toMatchObject([
      { reason: 'wait-not-over', command: 'choose-lane', lane: 'left', remainingMs: 30_000, by: 'Ada' }
    ])
  })

  test('shows a reading with its limits, what was done about a bad one, and the one that came after', () => {
    const record = recordOf(bothSides().events())
    expect(record.checks.map(({ lane, answer: given, good }) => [lane, given, good])).toEqual([
      ['left', ppm(80), false],
      ['left', ppm(150), true],
      ['right', ppm(120), true]
    ])
    expect(record.checks[0]?.limits).toEqual({ min: 100, max: 200, unit: '[ppm]', source: { en: 'The label' } })
    expect(record.corrections).toMatchObject([
      { lane: 'left', action: 'Remix it.', because: 'bad-answer', old: ppm(80), anew: ppm(150) }
    ])
  })

  test('a lane that is sent back before its wait is over begins the wait anew', () => {
    const run = carriedRun(COURSE)
    run.pass(5).do(DONE).pass(300)
    run.do({ type: 'correct', lane: 'left', action: 'Start again.' }).do({ type: 'choose-lane', lane: 'left' })
    const waits = recordOf(run.events()).waits
    expect(waits).toMatchObject([{ lane: 'left', result: 'too-long', actualSeconds: 300 }])
    run.pass(5).do(DONE)
    expect(recordOf(run.events()).waits[1]).toMatchObject({ lane: 'left', result: 'running', actualSeconds: null })
  })

  test('a wait that another device ended before this one found out that its clock lagged runs on', () => {
    const [lagging, other, office] = [counting('lagging'), counting('other'), counting('office')]
    const poured = { type: 'step-done', lane: 'left', step: 'sanitize', round: 1, confirmation: 'everyday' } as const
    const over = { type: 'wait-acknowledged', lane: 'left', step: 'sanitize', round: 1 } as const
    const found = { type: 'clock-caught-up', since: 0, byMs: 50_000 } as const
    const start = office(1_000_000)(STARTED)
    const waits = (...events: readonly RunEvent[]) => recordOf([start, ...events]).waits
    const early = other(1_075_000)(over)
    expect(waits(lagging(1_010_000)(poured), early, lagging(1_100_000)(found))).toMatchObject([
      { since: 1_060_000, due: 1_120_000, result: 'running' }
    ])
    expect(recordOf([start, lagging(1_010_000)(poured), early, lagging(1_100_000)(found)]).setAside).toMatchObject([
      { id: early.id }
    ])
    // By its own clock alone it has waited as long as it should.
    const alone = counting('alone')
    expect(waits(alone(1_010_000)(poured), alone(1_075_000)(over), alone(1_100_000)(found))).toMatchObject([
      { since: 1_060_000, endedAt: 1_125_000, actualSeconds: 65, result: 'kept' }
    ])
  })

  test('a clock that was off by the way through the network alone takes no line, and stays in the evidence', () => {
    const run = bothSides().events()
    const clocks = (byMs: number) => {
      const record = recordOf(later(run, { type: 'clock-caught-up', since: 0, byMs }))
      expect(record.clockNotes).toHaveLength(1)
      return recordLines(record, EN).filter(({ kind }) => kind === recordWordsEn.kinds.clock).length
    }
    expect([clocks(40), clocks(-999), clocks(1000)]).toEqual([0, 0, 1])
  })

  test('what was taken back stays in it, and does not count', () => {
    const run = carriedRun(COURSE)
    run.pass(5).do(DONE).do({ type: 'take-back' })
    const record = recordOf(run.events())
    expect(record.steps).toMatchObject([{ step: 'sanitize', takenBack: true, actualSeconds: null }])
    expect(record.takenBack).toEqual([expect.objectContaining({ cancels: record.steps[0]?.id })])
    expect(record.waits).toEqual([])
  })

  test('interruptions, hand-overs and problems are in it', () => {
    const run = carriedRun(COURSE)
    run.pass(5).do({ type: 'pause' }).pass(60).do({ type: 'resume' })
    run.do({ type: 'hand-over', to: 'Ben' }).do({ type: 'report-problem', lane: 'left', text: 'A seal leaks.' })
    run.pass(5).do({ type: 'pause' }).do({ type: 'abandon', reason: 'No water.' })
    const record = recordOf(run.events())
    expect(record.interruptions).toEqual([
      { by: 'Ada', from: 1_005_000, to: 1_065_000 },
      { by: 'Ada', from: 1_070_000, to: 1_070_000 }
    ])
    expect(record.operators).toEqual(['Ada', 'Ben'])
    expect(record.problems).toMatchObject([{ lane: 'left', text: 'A seal leaks.' }])
    expect(record).toMatchObject({ status: 'ended-early', endedBecause: 'No water.' })
  })

  test('a clock that is wrong is shown: device time beside trusted time', () => {
    const [started, ...rest] = bothSides().events()
    if (!started) throw new Error('It began.')
    const record = recordOf([started, ...rest.map((event) => ({ ...event, deviceAt: event.at - 7_200_000 }))])
    expect(record.clocks).toEqual([
      { device: 'tablet', entries: rest.length + 1, leastSkewMs: -7_200_000, mostSkewMs: 0 }
    ])
  })

  test('a note shows what it said before; remarks stand beside each other', () => {
    const noted = (field: string, value: string): RunFact => ({ type: 'noted', field, value })
    const events = later(
      bothSides().events(),
      noted('mix-lot', '17'),
      noted('mix-lot', '71'),
      noted('remark', 'a'),
      noted('remark', 'b')
    )
    expect(recordOf(events).notes.map(({ value, was, by }) => [value, was, by])).toEqual([
      ['17', null, 'Sue'],
      ['71', '17', 'Sue'],
      ['a', null, 'Sue'],
      ['b', null, 'Sue']
    ])
  })

  test('a correction after the run shows old and new value, judges the new one, and leaves the run as it was', () => {
    const events = bothSides().events()
    const entry = recordOf(events).checks[1]?.id ?? ''
    const record = recordOf(later(events, { type: 'amended', entry, was: ppm(150), now: ppm(50), reason: 'Misread.' }))
    expect(record.checks[1]).toMatchObject({
      answer: ppm(150),
      good: true,
      amendments: [{ by: 'Sue', was: ppm(150), now: ppm(50), reason: 'Misread.', good: false }]
    })
    expect(record.status).toBe('complete')
  })

  test('a signature covers what was there; what comes after it asks for another', () => {
    const events = bothSides().events()
    const signed = (entries: number): RunFact => ({ type: 'signed', meaning: 'review', entries, head: 'head' })
    const once = later(events, signed(events.length))
    expect(recordOf(once).review).toBe('signed')
    const remark: RunFact = { type: 'noted', field: 'remark', value: 'Late.' }
    const changed = later(events, signed(events.length), remark)
    expect(recordOf(changed).review).toBe('changed-since')
    expect(recordOf(later(events, signed(events.length), remark, signed(changed.length))).review).toBe('signed')
    // A tablet that comes back late brings something that is older than the signature.
    const [first, ...rest] = events.toReversed()
    expect(recordOf(later(rest.toReversed(), signed(rest.length))).review).toBe('signed')
    expect(recordOf([...later(rest.toReversed(), signed(rest.length)), ...(first ? [first] : [])]).review).toBe(
      'changed-since'
    )
  })

  test('only what stands for a review makes it reviewed', () => {
    const events = bothSides().events()
    const record = recordOf(
      later(events, { type: 'signed', meaning: 'responsibility', entries: events.length, head: 'head' })
    )
    expect(record).toMatchObject({
      review: 'unsigned',
      signatures: [{ by: 'Sue', meaning: 'responsibility', coversAll: true }]
    })
  })

  test('there is none of a run that nobody has begun', () => {
    expect(makeRecord(COURSE, [])).toBeNull()
    expect(makeRecord(COURSE, [counting()(5)({ type: 'paused' })])).toBeNull()
    expect(recordOf([counting()(5)(STARTED)]).status).toBe('open')
  })

  test('every field of the set stands somewhere in it, and says where it comes from', () => {
    const record = recordOf(bothSides().events())
    for (const { title, from, source } of FIELD_SET) {
      expect(title).not.toBe('')
      expect(source).not.toBe('')
      if ('part' in from) expect(Object.keys(record)).toContain(from.part)
    }
    const parts = FIELD_SET.flatMap(({ from }) => ('part' in from ? [from.part] : []))
    const unnamed = Object.keys(record).filter((part) => !parts.includes(part as keyof RunRecord))
    expect(unnamed.sort()).toEqual(['endedBecause', 'entries', 'run', 'status'])
  })
})

test('amounts stand in both units', () => {
  expect(textFor({ en: 'Pour {7.6 L | 2 gal} in, then {1 L | 1 qt}.' }, 'en')).toBe(
    'Pour 7.6 L (2 gal) in, then 1 L (1 qt).'
  )
})

describe('of any run', () => {
  // Hands that only dawdle miss a longest time, and their next step is refused.
  const course = layOut(aProcedure(EVERYTHING.replace(/at most: 3 min, |, late: \{[^}]*\}/g, '')))
  const anyRun = fc.infiniteStream(fc.nat(1000)).map((chance) => {
    const numbers = chance[Symbol.iterator]()
    return timedRun(course, () => Number(numbers.next().value), 5000).events
  })
  /** They steer the voice, or are told by the wait or the step that they belong to. */
  const TOLD_BY_OTHERS = [
    'run-started',
    'spoken',
    'lane-chosen',
    'lane-called',
    'rest-called',
    'caution-acknowledged',
    'wait-acknowledged',
    'paused',
    'resumed',
    'run-finished',
    'run-abandoned'
  ]

  test('the record is the same in whatever order the events arrive', () => {
    fc.assert(
      fc.property(
        anyRun.chain((events) => fc.tuple(fc.constant(events), shuffled(events))),
        ([events, mixed]) => {
          expect(recordOf(mixed, course)).toEqual(recordOf(events, course))
        }
      ),
      { numRuns: 15 }
    )
  })

  test('every entry is told, none of them twice, and no wait was shorter than asked', () => {
    fc.assert(
      fc.property(anyRun, (events) => {
        const record = recordOf(events, course)
        const lines = recordLines(record, EN)
        const told = lines.map(({ entry }) => entry).filter((id) => id !== '')
        expect(new Set(told).size).toBe(told.length)
        const silent = events.filter(({ id }) => !told.includes(id)).map(({ type }) => type)
        expect(silent.filter((type) => !TOLD_BY_OTHERS.includes(type))).toEqual([])
        expect(lines.map(({ at }) => at)).toEqual(lines.map(({ at }) => at).toSorted((a, b) => a - b))
        const kept = record.waits.filter(({ result }) => result === 'kept')
        expect(kept.every(({ actualSeconds, minSeconds }) => (actualSeconds ?? 0) >= minSeconds)).toBe(true)
        const interruptions = events.filter(({ type }) => type === 'paused')
        expect(record.interruptions.length).toBe(interruptions.length)
      }),
      { numRuns: 25 }
    )
  })
})
