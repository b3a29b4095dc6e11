import { expect, test } from 'vitest'
import { once } from './once.ts'

test('is made once, however often it is asked for, and again only after a failure', async () => {
  let made = 0
  let isAway = true
  const get = once(async () => {
    made += 1
    if (isAway) throw new Error('away')
    return made
  })
  await expect(Promise.all([get(), get()])).rejects.toThrow('away')
  expect(made).toBe(1)
  isAway = false
  expect(await Promise.all([get(), get()])).toEqual([2, 2])
  expect(await get()).toBe(2)
})
