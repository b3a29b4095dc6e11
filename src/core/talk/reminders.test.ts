import { expect, it, test } from 'vitest'
import { aCourse } from '../../../tests/helpers/a-procedure.ts'
import { METRIC, startTalk } from '../../../tests/helpers/spoken-script.ts'
import { FIRST_HANDS } from '../run/run.ts'
import { reminderAfter, reminderLines } from './reminders.ts'

const COURSE = aCourse('  - {stage: A, steps: [{step: a, on: left, say: Wipe it., hands: 20 s}]}')
const talk = startTalk(COURSE)
const call = talk.call()
const told = { course: COURSE, run: talk.run(), at: 1_000_000, manner: METRIC, device: FIRST_HANDS, outlook: null }

it('leaves twice the stated time and a while more, then comes sooner each time, and ends', () => {
  const due = [0, 1, 2].map((given) => reminderAfter(call, given) ?? 0)
  expect(due).toEqual([130_000, 190_000, 235_000])
  expect(reminderAfter(call, 3)).toBe(null)
})

test('nobody is reminded of what goes on by itself', () => {
  for (const kind of ['paused', 'not-started', 'finished', 'abandoned'] as const)
    expect(reminderAfter({ kind }, 0)).toBe(null)
  expect(reminderAfter({ kind: 'all-waiting', lane: 'left', until: 5 }, 0)).toBe(null)
})

it('grows from the call itself to something that cannot be missed', () => {
  const said = [0, 1, 2].map((given) =>
    reminderLines(told, call, given).map(({ priority, text }) => `${priority}: ${text}`)
  )
  expect(said).toEqual([
    ['step: Left. Wipe it.'],
    ['answer: This is still open.', 'answer: Left. Wipe it.'],
    ['answer: Nothing is heard from you. Touch the screen when you can.', 'answer: Left. Wipe it.']
  ])
})
