import { expect, test } from 'vitest'
import { readMachine } from './machine-clock.ts'

test('the machine has one boot, whose clock does not go back', () => {
  const [first, second] = [readMachine(), readMachine()]
  expect(first.bootId).toMatch(/^([0-9a-f-]{36}|unnamed)$/)
  expect(second.bootId).toBe(first.bootId)
  expect(first.uptime).toBeGreaterThan(0)
  expect(second.uptime).toBeGreaterThanOrEqual(first.uptime)
  expect(Math.abs(first.wall - Date.now())).toBeLessThan(60_000)
})
