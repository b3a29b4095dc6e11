import { expect, test } from 'vitest'
import { aShopOf } from '../../tests/helpers/shop-callers.ts'
import { countStrangers } from './strangers.ts'

test('somebody unknown is slowed down after three hundred questions a minute, by address', () => {
  const strangers = countStrangers()
  for (let index = 0; index < 300; index += 1) expect(strangers.asks('a', 1000)).toBe(0)
  expect(strangers.asks('a', 31_000)).toBe(30_000)
  expect(strangers.asks('b', 31_000)).toBe(0)
  expect(strangers.asks('a', 61_000)).toBe(0)
})

test('a flood from ever new addresses takes no more room than a thousand', () => {
  const strangers = countStrangers()
  for (let index = 0; index < 300; index += 1) strangers.asks('first', 0)
  for (let index = 0; index < 1001; index += 1) strangers.asks(`address ${index}`, 0)
  expect(strangers.asks('first', 0)).toBe(0)
})

test('whoever belongs to the shop is not counted', async () => {
  const [stranger, device] = [await aShopOf('nobody'), await aShopOf('device')]
  const statuses: number[] = []
  for (let index = 0; index < 310; index += 1) statuses.push((await stranger.as('/api/me')).status)
  expect(new Set(statuses.slice(0, 290))).toEqual(new Set([200]))
  const last = await stranger.as('/api/me')
  expect([last.status, last.headers.get('retry-after')]).toEqual([429, '60'])
  for (let index = 0; index < 310; index += 1) expect((await device.as('/api/me')).status).toBe(200)
  // A minute later it goes on.
  stranger.pass(60_000)
  expect((await stranger.as('/api/me')).status).toBe(200)
})
