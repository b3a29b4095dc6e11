/** A few seeds of what `npm run eval:faults` plays by the thousand, and that it notices what it is there for. */
import { expect, test } from 'vitest'
import { playSeed } from './play-seed.ts'

test.each([1, 2, 3, 4, 5, 6])('seed %i: nothing acknowledged is lost, and all end up with the same', async (seed) => {
  const { wrong, events, deviceCrashes, dropped } = await playSeed(seed)
  expect(wrong).toEqual([])
  expect(events).toBeGreaterThan(20)
  expect(deviceCrashes + dropped).toBeGreaterThan(0)
})

test('a seed plays the same each time', async () => {
  const [once, again] = [await playSeed(7), await playSeed(7)]
  expect(again).toEqual(once)
})

test('a server that says it has kept what it has not is found out', async () => {
  const wrong: string[] = []
  // One after the other: each takes the place of the process's own network.
  for (const seed of [11, 12, 13]) wrong.push(...(await playSeed(seed, 'lies')).wrong)
  expect(wrong.join()).toContain('which the server does not have')
})
