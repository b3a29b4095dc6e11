import fc from 'fast-check'
import { expect, it, test } from 'vitest'
import { PRIORITIES, type Line, type Priority } from './line.ts'
import { ended, hushed, next, SILENT, withLines, type Queue } from './queue.ts'

const line = (priority: Priority, text: string = priority): Line => ({ priority, text, lane: null })
const texts = ({ waiting }: Queue) => waiting.map(({ text }) => text)

test('an alarm comes before a caution, an answer, a step and a remark, however they came', () => {
  const { queue } = withLines(
    SILENT,
    PRIORITIES.toReversed().map((priority) => line(priority))
  )
  expect(texts(queue)).toEqual(['alarm', 'caution', 'answer', 'step', 'remark'])
})

test('what is more urgent cuts what is being said; what is as urgent waits', () => {
  const saying = next(withLines(SILENT, [line('answer')]).queue)
  expect(withLines(saying, [line('caution')]).stop).toBe(true)
  expect(withLines(saying, [line('answer')]).stop).toBe(false)
  expect(withLines(saying, [line('remark')]).stop).toBe(false)
})

test('a hush leaves what is more urgent', () => {
  const { queue } = withLines(SILENT, [line('alarm'), line('step'), line('remark')])
  expect(texts(hushed(queue, 'step').queue)).toEqual(['alarm'])
  expect(hushed(next(queue), 'step').stop).toBe(false)
  expect(hushed(next(queue), 'alarm').stop).toBe(true)
})

type Happening = { kind: 'say'; lines: readonly Line[] } | { kind: 'next' | 'ended' } | { kind: 'hush'; upTo: Priority }
const anyPriority = fc.constantFrom(...PRIORITIES)
const anyHappening: fc.Arbitrary<Happening> = fc.oneof(
  fc.record({
    kind: fc.constant('say' as const),
    lines: fc.array(
      fc.tuple(anyPriority, fc.string()).map(([priority, text]) => line(priority, text)),
      { maxLength: 4 }
    )
  }),
  fc.record({ kind: fc.constantFrom('next' as const, 'ended' as const) }),
  fc.record({ kind: fc.constant('hush' as const), upTo: anyPriority })
)

it('never says anything before what is more urgent, and loses nothing but what was hushed', () => {
  fc.assert(
    fc.property(fc.array(anyHappening, { maxLength: 40 }), (happenings) => {
      let queue = SILENT
      let given = 0
      let gone = 0
      for (const happening of happenings) {
        if (happening.kind === 'say') {
          queue = withLines(queue, happening.lines).queue
          given += happening.lines.length
        }
        if (happening.kind === 'hush') {
          const { queue: left } = hushed(queue, happening.upTo)
          gone += queue.waiting.length - left.waiting.length
          queue = left
        }
        if (happening.kind === 'next') {
          const before = queue
          queue = next(queue)
          const said = queue.saying
          if (before.saying === null && said)
            for (const other of queue.waiting)
              expect(PRIORITIES.indexOf(other.priority)).toBeGreaterThanOrEqual(PRIORITIES.indexOf(said.priority))
        }
        if (happening.kind === 'ended') {
          if (queue.saying) gone += 1
          queue = ended(queue)
        }
        expect(queue.waiting.length + (queue.saying ? 1 : 0) + gone).toBe(given)
      }
    })
  )
})
