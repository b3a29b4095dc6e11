import { expect, test } from 'vitest'
import { askToKeepStorage, type StorageKeeper } from './storage-persist.ts'

function storage(answers: Partial<Record<'persisted' | 'persist', boolean>>, estimate?: StorageKeeper['estimate']) {
  const answer = (name: 'persisted' | 'persist') => async () => {
    const given = answers[name]
    if (given === undefined) throw new DOMException('unexpected', 'SecurityError')
    return given
  }
  return { persisted: answer('persisted'), persist: answer('persist'), ...(estimate ? { estimate } : {}) }
}

test('does not ask again for what is granted already', async () => {
  const report = await askToKeepStorage(storage({ persisted: true }, async () => ({ usage: 5, quota: 20 })))
  expect(report).toEqual({ persistence: 'kept', used: 0.25 })
})

test.each([
  [true, 'kept'],
  [false, 'may-be-cleared']
] as const)('asks, and %s is %s', async (persist, persistence) => {
  expect(await askToKeepStorage(storage({ persisted: false, persist }))).toEqual({ persistence, used: null })
})

test('a browser that cannot or will not tell', async () => {
  expect(await askToKeepStorage(null)).toEqual({ persistence: 'unknown', used: null })
  const refusing = storage({}, () => Promise.reject(new DOMException('no', 'SecurityError')))
  expect(await askToKeepStorage(refusing)).toEqual({ persistence: 'unknown', used: null })
  expect((await askToKeepStorage(storage({ persisted: true }, async () => ({ usage: 0, quota: 0 })))).used).toBe(null)
})
