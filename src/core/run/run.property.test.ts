import fc from 'fast-check'
import { expect, test } from 'vitest'
import { anyProcedure, anyProcedureWithoutMaxima } from '../../../tests/helpers/any-procedure.ts'
import { counting, STARTED } from '../../../tests/helpers/stamping.ts'
import { wrongIn } from '../../../tests/helpers/run-oracle.ts'
import { layOut, type Course } from '../procedure/course.ts'
import type { Command } from './command.ts'
import { decide } from './decide.ts'
import type { RunEvent } from './event.ts'
import { advance, emptyRun, replay } from './reduce.ts'
import { callAt, waitsAhead } from './call.ts'
import type { Run } from './run.ts'

interface Move {
  readonly command: number
  readonly passMs: number
  readonly value: number
  /** Moves to just before or just after the next wait ends, where mistakes live. */
  readonly nearDueMs: number | null
}

const anyMove: fc.Arbitrary<Move> = fc.record({
  command: fc.nat(99),
  passMs: fc.oneof(fc.nat(2000), fc.nat(60_000), fc.nat(600_000)),
  value: fc.nat(300),
  nearDueMs: fc.option(fc.integer({ min: -1500, max: 1500 }), { freq: 3 })
})

function commandFor(move: Move, course: Course, run: Run, at: number): Command {
  const lane = course.lanes[move.value % course.lanes.length]?.id ?? 'left'
  const call = callAt(course, run, at)
  const check = call.kind === 'step' ? call.place.step.check : null
  // Half of the moves are what a sensible operator does now, so that runs get far; the rest is anything at all.
  if (move.command < 50) {
    if (call.kind === 'alarm') return { type: 'acknowledge-wait', lane: call.lane }
    if (call.kind === 'caution') return { type: 'understood' }
    if (call.kind === 'stopped' || call.kind === 'late') return { type: 'correct', lane: call.lane, action: 'mended' }
    if (call.kind === 'paused') return { type: 'resume' }
    if (check?.kind === 'yes-no')
      return { type: 'answer', answer: { kind: 'yes-no', value: move.value % 3 === 0 ? 'no' : 'yes' } }
    if (check?.kind === 'reading')
      return { type: 'answer', answer: { kind: 'reading', value: move.value, unit: check.unit } }
    if (check?.kind === 'count') return { type: 'answer', answer: { kind: 'count', value: move.value % 6 } }
    return call.kind === 'step' && call.place.step.confirm ? { type: 'confirm', how: 'phrase' } : { type: 'done' }
  }
  const anything: Command[] = [
    { type: 'done' },
    { type: 'next' },
    { type: 'understood' },
    { type: 'confirm', how: 'held' },
    { type: 'answer', answer: { kind: 'yes-no', value: 'yes' } },
    { type: 'answer', answer: { kind: 'count', value: move.value } },
    { type: 'answer', answer: { kind: 'reading', value: move.value, unit: '[ppm]' } },
    { type: 'acknowledge-wait', lane },
    { type: 'take-back' },
    { type: 'choose-lane', lane },
    { type: 'report-problem', lane, text: 'odd noise' },
    { type: 'correct', lane, action: 'mended' },
    { type: 'pause' },
    { type: 'resume' },
    { type: 'hand-over', to: 'Ben' },
    { type: 'replace-part', lane, part: 'seal' },
    { type: 'choose-lane', lane: 'nowhere' }
  ]
  return anything[move.command % anything.length] ?? { type: 'done' }
}

function play(course: Course, moves: readonly Move[]): { run: Run; events: readonly RunEvent[] } {
  const stamp = counting()
  let at = 1_000_000
  const started = stamp(at)(STARTED)
  let events: readonly RunEvent[] = [started]
  let run = advance(course, emptyRun(course, 'run'), events, [started])
  for (const move of moves) {
    const due = waitsAhead(run)[0]?.due
    at = Math.max(at, move.nearDueMs === null || due === undefined ? at + move.passMs : due + move.nearDueMs)
    const decision = decide(course, run, commandFor(move, course, run, at), at, stamp(at))
    events = [...events, ...decision.events]
    run = advance(course, run, events, decision.events)
  }
  return { run, events }
}

const anyPlay = fc.record({ procedure: anyProcedure, moves: fc.array(anyMove, { maxLength: 120 }) })

test('whatever is commanded, no wait is cut short and barriers, tools, cautions and checks hold', () => {
  fc.assert(
    fc.property(anyPlay, ({ procedure, moves }) => {
      expect(wrongIn(procedure, play(layOut(procedure), moves).events)).toEqual([])
    }),
    { numRuns: 400 }
  )
})

test('replaying the events in any order of arrival, some of them twice, gives the live state', () => {
  fc.assert(
    fc.property(anyPlay, fc.infiniteStream(fc.nat()), ({ procedure, moves }, chance) => {
      const course = layOut(procedure)
      const { run, events } = play(course, moves)
      const keyed = [...events, ...events.slice(0, 5)].map((event) => ({ event, key: chance.next().value as number }))
      const shuffled = keyed.sort((a, b) => a.key - b.key).map(({ event }) => event)
      expect(replay(course, 'run', shuffled)).toEqual(run)
    }),
    { numRuns: 200 }
  )
})

test('an event decided here is never set aside here', () => {
  fc.assert(
    fc.property(anyPlay, ({ procedure, moves }) => {
      const { run, events } = play(layOut(procedure), moves)
      // What followed something taken back may no longer fit; nothing else may be left over.
      if (!events.some((event) => event.type === 'taken-back')) expect(run.setAside).toEqual([])
    })
  )
})

test('a sensible operator reaches the end of every valid procedure', () => {
  fc.assert(
    fc.property(anyProcedureWithoutMaxima, (procedure) => {
      const course = layOut(procedure)
      const stamp = counting()
      let at = 0
      const started = stamp(at)(STARTED)
      let events: readonly RunEvent[] = [started]
      let run = advance(course, emptyRun(course, 'run'), events, [started])
      for (let moves = 0; run.status !== 'finished'; moves += 1) {
        expect(moves).toBeLessThan(5000)
        const call = callAt(course, run, at)
        at = call.kind === 'all-waiting' ? call.until : at + 1000
        const command = sensible(course, run, at)
        const decision = decide(course, run, command, at, stamp(at))
        expect(decision.kind, JSON.stringify({ command, call: callAt(course, run, at) })).toBe('accepted')
        events = [...events, ...decision.events]
        run = advance(course, run, events, decision.events)
      }
      expect(wrongIn(procedure, events)).toEqual([])
    })
  )
})

const TAKE_BACK: Move = { command: 56, passMs: 500, value: 0, nearDueMs: null }

/** A play in which the server sometimes shows that the device's time lags, and with some of its entries lost. */
const anyLoss = fc.record({
  procedure: anyProcedure,
  // Taken back is what matters most when it is lost: what was done once more may still be waiting.
  moves: fc.array(fc.oneof({ weight: 3, arbitrary: anyMove }, { weight: 1, arbitrary: fc.constant(TAKE_BACK) }), {
    minLength: 10,
    maxLength: 120
  }),
  catchUps: fc.array(fc.record({ place: fc.nat(), byMs: fc.integer({ min: 1, max: 900_000 }) }), { maxLength: 3 }),
  lost: fc.oneof(
    fc.record({ kind: fc.constant('some' as const), places: fc.array(fc.nat(), { minLength: 1, maxLength: 8 }) }),
    fc.record({ kind: fc.constant('last' as const), howMany: fc.integer({ min: 1, max: 12 }) })
  ),
  waitMs: fc.oneof(fc.constant(0), fc.nat(400_000))
})

function withoutLost(
  events: readonly RunEvent[],
  lost:
    | { readonly kind: 'some'; readonly places: readonly number[] }
    | { readonly kind: 'last'; readonly howMany: number }
): readonly RunEvent[] {
  // Without its start there is no run.
  if (lost.kind === 'last') return events.slice(0, Math.max(1, events.length - lost.howMany))
  const gone = new Set(lost.places.map((place) => 1 + (place % events.length)))
  return events.filter((_, place) => !gone.has(place))
}

/** The same moves, but at some places the server's time arrives: later by `byMs`, and waits with it. */
function playLagging(
  course: Course,
  moves: readonly Move[],
  catchUps: readonly { readonly place: number; readonly byMs: number }[]
): readonly RunEvent[] {
  const places = new Map(catchUps.map(({ place, byMs }) => [place % moves.length, byMs]))
  const stamp = counting()
  let at = 1_000_000
  let events: readonly RunEvent[] = [stamp(at)(STARTED)]
  moves.forEach((move, place) => {
    const run = replay(course, 'run', events)
    const due = waitsAhead(run)[0]?.due
    at = Math.max(at + 1, move.nearDueMs === null || due === undefined ? at + move.passMs : due + move.nearDueMs)
    events = [...events, ...decide(course, run, commandFor(move, course, run, at), at, stamp(at)).events]
    const byMs = places.get(place)
    if (byMs === undefined) return
    at += byMs + 1
    events = [...events, stamp(at)({ type: 'clock-caught-up', since: 0, byMs })]
  })
  return events
}

test('whichever entries are lost, no wait that really runs gets shorter, and all lanes stop until somebody looks', () => {
  fc.assert(
    fc.property(anyLoss, ({ procedure, moves, catchUps, lost, waitMs }) => {
      const course = layOut(procedure)
      const events = playLagging(course, moves, catchUps)
      const at = Math.max(...events.map((event) => event.at)) + 1 + waitMs
      const left = withoutLost(events, lost)
      const loss = counting('after-loss')(at)({ type: 'entries-lost', ids: [], gaps: 0 })
      const [really, run] = [replay(course, 'run', events), replay(course, 'run', [...left, loss])]
      if (run.status !== 'running' && run.status !== 'paused') return
      for (const { id, steps } of course.lanes) {
        if (steps.length > 0) expect(run.lanes[id]?.stop).not.toBe(null)
        const wait = really.lanes[id]?.waiting
        if (!wait || wait.due <= at) continue
        const place = steps.findIndex(({ step }) => step.id === wait.step)
        const [position, waiting] = [run.lanes[id]?.position ?? 0, run.lanes[id]?.waiting]
        // Either the step is asked for once more, and its wait begins anew, or the lane waits as long.
        if (position > place) expect(waiting?.due ?? 0).toBeGreaterThanOrEqual(wait.due)
      }
    }),
    { numRuns: 400 }
  )
})

test('after a loss a sensible operator still reaches the end, by the rules', () => {
  fc.assert(
    fc.property(anyLoss, ({ moves, lost, waitMs, procedure: withMaxima }) => {
      const procedure = {
        ...withMaxima,
        stages: withMaxima.stages.map((stage) => ({
          ...stage,
          steps: stage.steps.map((step) => ({
            ...step,
            wait: step.wait && { ...step.wait, maxSeconds: null, late: null }
          }))
        }))
      }
      const course = layOut(procedure)
      const before = playLagging(course, moves, [])
      let at = Math.max(...before.map((event) => event.at)) + 1 + waitMs
      const stamp = counting('after-loss')
      const loss = stamp(at)({ type: 'entries-lost', ids: [], gaps: 0 })
      let events: readonly RunEvent[] = [...withoutLost(before, lost), loss]
      let run = replay(course, 'run', events)
      for (let moved = 0; run.status !== 'finished'; moved += 1) {
        expect(moved).toBeLessThan(5000)
        const call = callAt(course, run, at)
        at = call.kind === 'all-waiting' ? call.until : at + 1000
        const decision = decide(course, run, sensible(course, run, at), at, stamp(at))
        expect(decision.kind, JSON.stringify(callAt(course, run, at))).toBe('accepted')
        events = [...events, ...decision.events]
        run = advance(course, run, events, decision.events)
      }
      const counted = events.filter((event) => !run.setAside.includes(event))
      expect(wrongIn(procedure, counted)).toEqual([])
    }),
    { numRuns: 100 }
  )
})

function sensible(course: Course, run: Run, at: number): Command {
  const call = callAt(course, run, at)
  const check = call.kind === 'step' ? call.place.step.check : null
  if (check?.kind === 'yes-no') return { type: 'answer', answer: { kind: 'yes-no', value: check.good } }
  if (check?.kind === 'reading')
    return { type: 'answer', answer: { kind: 'reading', value: check.min ?? check.max ?? 0, unit: check.unit } }
  if (check?.kind === 'count') {
    const lanes =
      'lane' in call && course.procedure.sides.some(({ id }) => id === call.lane) ? 1 : course.procedure.sides.length
    const value = course.procedure.parts
      .filter(({ id }) => check.parts.includes(id))
      .reduce((sum, { count }) => sum + count * lanes, 0)
    return { type: 'answer', answer: { kind: 'count', value } }
  }
  return commandFor({ command: 0, passMs: 0, value: 1, nearDueMs: null }, course, run, at)
}
