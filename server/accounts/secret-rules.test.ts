import { expect, test } from 'vitest'
import { whyNoPassword, whyNoPin } from './secret-rules.ts'

// OWASP ASVS 5.0, 6.2.1 and 6.2.9: at least 8 characters, and 64 are to be taken.
test.each(['three grey pans', 'x9#kQ2!mZ7', '四つの灰色の鍋がある台所', 'a'.repeat(60) + 'bcdef'])(
  '%s will do',
  (password) => {
    expect(whyNoPassword(password, 'Olive Owner')).toBeNull()
  }
)

test.each([
  ['short', 'at least 10'],
  ['ninechars', 'at least 10'],
  ['aaaaaaaaaaaa', 'different'],
  ['olive owner1', 'without your name'],
  ['Password1234', 'without your name'],
  ['sidecall-2026', 'without your name'],
  ['ab cd '.repeat(40), 'at most']
])('%s will not', (password, why) => {
  expect(whyNoPassword(password, 'Olive Owner')).toContain(why)
})

test.each(['4711', '90210', '13579024'])('PIN %s will do', (pin) => {
  expect(whyNoPin(pin)).toBeNull()
})

test.each(['471', '123456789', '12a4', '0000', '1234', '8765', '', '٤٧١١'])('PIN %s will not', (pin) => {
  expect(whyNoPin(pin)).toMatch(/digits/)
})
