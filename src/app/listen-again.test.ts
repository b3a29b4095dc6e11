import { expect, test } from 'vitest'
import { fakeClock } from '../../tests/helpers/fake-clock.ts'
import { fakeEars } from '../../tests/helpers/fake-ears.ts'
import { listenAgain } from './listen-again.ts'

test('a touch on deaf ears lets them try again', () => {
  const ears = fakeEars(fakeClock())
  listenAgain(ears, 'en')
  expect(ears.triedAgain).toBe(0)
  ears.goDeaf('denied')
  listenAgain(ears, 'en')
  expect(ears.triedAgain).toBe(1)
})
