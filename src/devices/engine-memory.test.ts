import { expect, test } from 'vitest'
import { rememberedIn } from './engine-memory.ts'

test('remembers and forgets', () => {
  const kept = new Map<string, string>()
  const memory = rememberedIn(
    () => ({
      getItem: (key) => kept.get(key) ?? null,
      setItem: (key, value) => void kept.set(key, value),
      removeItem: (key) => void kept.delete(key)
    }),
    'absent'
  )
  expect(memory.recallAbsent()).toBe(false)
  memory.rememberAbsent(true)
  expect(memory.recallAbsent()).toBe(true)
  memory.rememberAbsent(false)
  expect(memory.recallAbsent()).toBe(false)
})

test('blocked site data is no fault', () => {
  const memory = rememberedIn(() => {
    throw new DOMException('blocked', 'SecurityError')
  }, 'absent')
  memory.rememberAbsent(true)
  expect(memory.recallAbsent()).toBe(false)
})
