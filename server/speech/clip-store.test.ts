import { appendFileSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openClipStore, type ClipStore, type KeptClip } from './clip-store.ts'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-clips-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

function opened(recipe = 'one'): ClipStore {
  const store = openClipStore(folder, recipe)
  if (typeof store === 'string') throw new Error(store)
  return store
}

function kept(store: ClipStore, spoken: string, ...bytes: readonly number[]): KeptClip {
  const clip = store.keep(spoken, { bytes: Uint8Array.from(bytes), ms: 5 })
  if (typeof clip === 'string') throw new Error(clip)
  return clip
}

test('a clip is found again after a new start, by text and by hash', async () => {
  // FIPS 180-4 example: SHA-256 of "abc".
  const clip = kept(opened(), 'Left.', 0x61, 0x62, 0x63)
  expect(clip.hash).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad')
  const again = opened()
  expect(again.find('Left.')).toMatchObject({ ...clip, ms: 5, bytes: 3 })
  expect(await again.read(clip.hash)).toEqual(Uint8Array.of(0x61, 0x62, 0x63))
  expect(again.find('Right.')).toBe(null)
})

test('a damaged clip is not given out, and counts as missing from then on', async () => {
  const store = opened()
  const { hash } = kept(store, 'Left.', 1, 2, 3)
  writeFileSync(join(folder, 'one', `${hash}.wav`), Uint8Array.of(1, 2))
  expect(await store.read(hash)).toBe(null)
  expect(store.find('Left.')).toBe(null)
  expect(opened().find('Left.')).toBe(null)
})

test('half a line, as a power cut leaves it, costs one clip at most', () => {
  kept(opened(), 'Left.', 1)
  appendFileSync(join(folder, 'one', 'clips.jsonl'), '{"spoken":"Right.","hash":"ab')
  const store = opened()
  expect(store.find('Left.')).not.toBe(null)
  expect(store.find('Right.')).toBe(null)
})

test('clips of another recipe are deleted', () => {
  kept(opened('one'), 'Left.', 1)
  expect(opened('two').find('Left.')).toBe(null)
  expect(readdirSync(folder)).toEqual(['two'])
})

test.each(['', '../one/clips.jsonl', '..%2f', 'A'.repeat(64), 'a'.repeat(63)])('%j is no hash', async (hash) => {
  kept(opened(), 'Left.', 1)
  expect(await opened().read(hash)).toBe(null)
})

test('where a file stands in its way it says why', () => {
  mkdirSync(join(folder, 'sub'))
  writeFileSync(join(folder, 'sub', 'one'), 'in the way')
  expect(openClipStore(join(folder, 'sub'), 'one')).toBe('EEXIST')
})
