import { expect, test } from 'vitest'
import { givenName } from './given-name.ts'

const person = { id: 'p1', name: 'Ada', check: { id: 'c1', at: 1000 } }

test('a chosen name says whose it is, and which check stands behind it', () => {
  expect(givenName({ person }, ' Ada ', 2000)).toEqual({ who: { person: 'p1', check: 'c1' } })
  expect(givenName({ person: { ...person, check: null } }, 'Ada', 2000)).toEqual({ who: { person: 'p1', check: null } })
})

test('a check of the shift before is none any more', () => {
  expect(givenName({ person }, 'Ada', 1000 + 12 * 3600_000)).toEqual({ who: { person: 'p1', check: null } })
})

test('a name that was typed is nobody’s, whoever was chosen before', () => {
  expect(givenName({ person }, 'Ben', 2000)).toEqual({})
  expect(givenName({ person: null }, 'Ada', 2000)).toEqual({})
})
