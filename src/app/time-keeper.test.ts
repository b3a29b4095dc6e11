import { expect, test } from 'vitest'
import { fakeClock } from '../../tests/helpers/fake-clock.ts'
import { memoryStorage } from '../../tests/helpers/memory-event-log.ts'
import { keepTime } from './time-keeper.ts'

test('whoever asked to hear of a moved clock hears of it until told to forget, and is let go of then', async () => {
  const clock = fakeClock()
  const server = { time: async () => ({ kind: 'failed', failure: { kind: 'unreachable' } }) as const }
  const time = await keepTime({ clock, log: memoryStorage().open(), server }, async () => true)
  const told: string[] = []
  const forget = time.onMoved((byMs) => told.push(`first ${byMs}`))
  time.onMoved((byMs) => told.push(`second ${byMs}`))
  clock.moveWall(60_000)
  time.now()
  forget()
  clock.moveWall(-60_000)
  time.now()
  expect(told).toEqual(['first 60000', 'second 60000', 'second -60000'])
})
