/** Random events of every type, for property tests. Ids are few, so that repeats and conflicts happen. */
import fc from 'fast-check'
import { MEANINGS, type Envelope, type RunEvent, type RunFact } from '../../src/core/run/event.ts'

type FactOf<Type extends RunFact['type']> = Extract<RunFact, { type: Type }>

const words = fc.string({ unit: 'grapheme', maxLength: 20 })
const name = fc.constantFrom('left', 'right', 'bench', 'machine')
const ref = { lane: name, step: fc.constantFrom('fill', 'soak', 'clear'), round: fc.integer({ min: 1, max: 4 }) }
const ms = fc.integer({ min: -1_000_000, max: 1_000_000 })

const answer = fc.oneof(
  fc.record({ kind: fc.constant('yes-no' as const), value: fc.constantFrom('yes' as const, 'no' as const) }),
  fc.record({
    kind: fc.constant('reading' as const),
    value: fc.double({ noNaN: true, noDefaultInfinity: true }),
    unit: fc.constantFrom('[ppm]' as const, 'Cel' as const, '[degF]' as const, '[pH]' as const)
  }),
  fc.record({ kind: fc.constant('count' as const), value: fc.nat(50) })
)

const who = fc.record({ person: name, check: fc.option(name) })
/** With and without. */
const given = <Rest extends object>(rest: fc.Arbitrary<Rest>) =>
  fc.oneof(
    rest,
    fc.tuple(rest, who).map(([one, by]) => ({ ...one, who: by }))
  )

const fields: { readonly [Type in RunFact['type']]: fc.Arbitrary<Omit<FactOf<Type>, 'type'>> } = {
  'run-started': given(fc.record({ procedureId: name, procedureHash: name, site: words, machine: words, zone: words })),
  'caution-acknowledged': fc.record(ref),
  'step-done': fc.record({ ...ref, confirmation: fc.constantFrom('everyday', 'phrase', 'held') }),
  'check-answered': fc.record({ ...ref, answer, good: fc.boolean() }),
  'wait-acknowledged': fc.record(ref),
  'taken-back': fc.record({ cancels: name }),
  refused: fc.record({
    command: words,
    lane: fc.option(name),
    step: fc.option(name),
    reason: fc.constantFrom('wait-not-over', 'run-over', 'paused'),
    remainingMs: fc.option(ms)
  }),
  paused: fc.constant({}),
  resumed: fc.constant({}),
  'handed-over': given(fc.record({ to: words })),
  'problem-reported': fc.record({ lane: name, text: words }),
  corrected: fc.record({ lane: name, action: words, redo: fc.option(name) }),
  'lane-chosen': fc.record({ lane: name }),
  'lane-called': fc.record({ lane: name }),
  'rest-called': fc.record({ lane: name, until: fc.nat(1_000_000) }),
  joined: given(fc.record({ name: words })),
  left: fc.record({ hands: fc.constantFrom('tablet', 'phone') }),
  'clock-moved': fc.record({ byMs: ms }),
  'clock-caught-up': fc.record({ since: fc.nat(1_000_000), byMs: ms }),
  'entries-lost': fc.record({ ids: fc.array(name, { maxLength: 3 }), gaps: fc.nat(3) }),
  'run-finished': fc.constant({}),
  'run-abandoned': fc.record({ reason: words }),
  noted: fc.record({ field: fc.constantFrom('remark', 'mix-lot'), value: words }),
  'part-replaced': fc.record({ part: name, lane: name, pieces: fc.integer({ min: 1, max: 9 }) }),
  amended: fc.record({ entry: name, was: answer, now: answer, reason: words }),
  spoken: fc.record({
    lines: fc.array(
      fc.record({ who: fc.constantFrom('sidecall', 'operator'), at: fc.nat(1_000_000), text: fc.option(words) }),
      { minLength: 1, maxLength: 4 }
    )
  }),
  signed: fc.record({ meaning: fc.constantFrom(...MEANINGS), entries: fc.integer({ min: 1, max: 500 }), head: name }),
  'name-checked': fc.record({ entry: name, person: name })
}

const envelope: fc.Arbitrary<Envelope> = fc.record({
  id: fc.integer({ min: 1, max: 60 }).map((number) => `event-${number}`),
  runId: fc.constantFrom('run-1', 'run-2', 'run-3'),
  at: fc.nat(50),
  deviceAt: fc.nat(1_000_000),
  device: fc.constantFrom('tablet', 'phone'),
  seq: fc.integer({ min: 1, max: 20 }),
  by: words,
  via: fc.constantFrom('voice', 'touch', 'key', 'typed', 'app')
})

export const anyEvent: fc.Arbitrary<RunEvent> = fc.oneof(
  ...Object.entries(fields).map(([type, rest]) =>
    fc.tuple(envelope, rest).map(([head, fact]) => ({ ...head, ...fact, type }) as RunEvent)
  )
)

/** The same events in another order. */
export function shuffled<T>(items: readonly T[]): fc.Arbitrary<readonly T[]> {
  return fc.shuffledSubarray([...items], { minLength: items.length, maxLength: items.length })
}
