import 'fake-indexeddb/auto'
import { expect, test } from 'vitest'
import { practiceTakes } from './practice-takes.ts'

const take = (value: number) => ({ speech: Float32Array.of(value, 2), room: Float32Array.of(0.5) })
const ANA = { operator: 'Ana', language: 'en' }

test('takes are kept by voice, language and phrase, and outlive the page', async () => {
  await practiceTakes('a').keep(ANA, 'all done', [take(1), take(2)])
  const store = practiceTakes('a')
  await store.keep({ ...ANA, language: 'es' }, 'ya está', [take(3)])
  await store.keep({ operator: 'Anaïs', language: 'en' }, 'all done', [take(4)])
  expect(await store.of(ANA)).toEqual([{ words: 'all done', takes: [take(1), take(2)] }])
  expect(await store.of({ ...ANA, language: 'es' })).toEqual([{ words: 'ya está', takes: [take(3)] }])
})

test('one phrase or all of a voice is forgotten, and nothing of another', async () => {
  const store = practiceTakes('b')
  const other = { operator: 'Ben', language: 'en' }
  await store.keep(ANA, 'all done', [take(1)])
  await store.keep(ANA, 'say again', [take(2)])
  await store.keep(other, 'all done', [take(3)])
  await store.forget(ANA, 'all done')
  expect((await store.of(ANA)).map(({ words }) => words)).toEqual(['say again'])
  await store.forget(ANA, null)
  expect(await store.of(ANA)).toEqual([])
  expect(await store.of(other)).toHaveLength(1)
})
