import { createHash } from 'node:crypto'
import { expect, test } from 'vitest'
import { earFiles, type EarFile } from './ear-files.ts'

const BYTES = new TextEncoder().encode('weights')
const FILE: EarFile = {
  name: 'voice',
  path: '/ears/voice-1.onnx',
  sha256: createHash('sha256').update(BYTES).digest('hex')
}

/** One cache of the browser, strict about what is used here. */
function cacheStorage() {
  const kept = new Map<string, Uint8Array<ArrayBuffer>>()
  const cache = {
    match: async (path: string) => (kept.has(path) ? new Response(kept.get(path)) : undefined),
    put: async (path: string, response: Response) => void kept.set(path, new Uint8Array(await response.arrayBuffer())),
    keys: async () => [...kept.keys()].map((path) => ({ url: `http://kitchen.test${path}` })),
    delete: async (request: { readonly url: string }) => kept.delete(new URL(request.url).pathname)
  }
  const opened: string[] = []
  const storage = {
    async open(name: string) {
      opened.push(name)
      return cache
    }
  }
  return { storage: storage as unknown as CacheStorage, kept, opened }
}

function server(body: Uint8Array<ArrayBuffer> | null) {
  const asked: string[] = []
  const get = async (path: string) => {
    asked.push(path)
    return body ? new Response(body) : new Response(null, { status: 503 })
  }
  return { get: get as typeof fetch, asked }
}

test('fetched once, then taken from the store without the network', async () => {
  const { storage, opened } = cacheStorage()
  const there = server(BYTES)
  expect((await earFiles([FILE], storage, there.get)).voice).toEqual(BYTES)
  const away = server(null)
  expect((await earFiles([FILE], storage, away.get)).voice).toEqual(BYTES)
  expect(there.asked).toEqual([FILE.path])
  expect(away.asked).toEqual([])
  expect(opened.every((name) => !name.startsWith('page '))).toBe(true)
})

test('a file that is not what it should be is refused and not kept', async () => {
  const { storage, kept } = cacheStorage()
  const wrong = server(new TextEncoder().encode('something else'))
  await expect(earFiles([FILE], storage, wrong.get)).rejects.toThrow('is not what it should be')
  expect(kept.size).toBe(0)
})

test('a damaged copy is fetched anew, and copies of older versions go', async () => {
  const { storage, kept } = cacheStorage()
  kept.set(FILE.path, new TextEncoder().encode('weigh'))
  kept.set('/ears/voice-0.onnx', BYTES)
  const there = server(BYTES)
  expect((await earFiles([FILE], storage, there.get)).voice).toEqual(BYTES)
  expect([...kept.keys()]).toEqual([FILE.path])
})

test('without a store it is fetched each time', async () => {
  const there = server(BYTES)
  await earFiles([FILE], null, there.get)
  await earFiles([FILE], null, there.get)
  expect(there.asked).toHaveLength(2)
})
