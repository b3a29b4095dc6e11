import { mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { anApp } from '../../tests/helpers/an-app.ts'
import { MOST_VOICE_BYTES, packedTakes } from '../../src/core/ears/packed-takes.ts'
import { BANDS } from '../../src/core/ears/sound.ts'
import { voiceStore } from '../voices/voice-store.ts'

const ADA = '/api/voices/Ada%20%2F%20ni%C3%B1a?language=en'
const VOICE = packedTakes([
  {
    words: 'all done',
    takes: [{ speech: new Float32Array(40 * BANDS).fill(7), room: new Float32Array(9 * BANDS).fill(2) }]
  }
])

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-voices-'))
})
afterEach(() => rmSync(folder, { recursive: true }))

/** A server that has just started on the folder. */
const started = () => anApp({ voices: voiceStore(join(folder, 'voices')) }).app
const put = (body: BodyInit, address = ADA) => started().request(address, { method: 'PUT', body })

test('a voice is there for the next tablet, and after a restart', async () => {
  expect((await put(VOICE)).status).toBe(204)
  const answer = await started().request(ADA)
  expect(answer.status).toBe(200)
  expect(new Uint8Array(await answer.arrayBuffer())).toEqual(VOICE)
  expect(answer.headers.get('cache-control')).toBe('no-store')
})

test('of another person or language there is none', async () => {
  await put(VOICE)
  expect((await started().request('/api/voices/Ben?language=en')).status).toBe(404)
  expect((await started().request(ADA.replace('=en', '=es'))).status).toBe(404)
})

test('deleted, nothing of it is left', async () => {
  await put(VOICE)
  expect((await started().request(ADA, { method: 'DELETE' })).status).toBe(204)
  expect((await started().request(ADA)).status).toBe(404)
  expect(readdirSync(join(folder, 'voices'))).toEqual([])
  expect((await started().request(ADA, { method: 'DELETE' })).status).toBe(204)
})

test('a newer one takes the place of the older', async () => {
  await put(VOICE)
  const newer = packedTakes([])
  await put(newer)
  expect(new Uint8Array(await (await started().request(ADA)).arrayBuffer())).toEqual(newer)
  expect(readdirSync(join(folder, 'voices'))).toHaveLength(1)
})

test('the folder tells nobody whose voices these are', async () => {
  await put(VOICE)
  expect(readdirSync(join(folder, 'voices')).join()).not.toMatch(/ada/i)
})

describe('refused', () => {
  test.each([
    ['sound', new Uint8Array(5000).map((_, at) => at % 251), ADA, 422],
    ['nothing', new Uint8Array(0), ADA, 422],
    ['more than a voice has', new Uint8Array(MOST_VOICE_BYTES + 1), ADA, 413],
    ['no language', VOICE, '/api/voices/Ada', 422],
    ['a language that is a path', VOICE, '/api/voices/Ada?language=../..', 422],
    ['a name without end', VOICE, `/api/voices/${'a'.repeat(201)}?language=en`, 422],
    ['no name', VOICE, '/api/voices/%20?language=en', 422]
  ])('%s', async (_, body, address, status) => {
    const answer = await put(body, address)
    expect(answer.status).toBe(status)
    expect(answer.headers.get('content-type')).toContain('application/problem+json')
    expect(() => statSync(join(folder, 'voices'))).toThrow()
  })

  test('from another site', async () => {
    const headers = { 'sec-fetch-site': 'cross-site' }
    expect((await started().request(ADA, { method: 'PUT', body: VOICE, headers })).status).toBe(403)
    expect((await started().request(ADA, { method: 'DELETE', headers })).status).toBe(403)
  })

  test('other methods', async () => {
    const answer = await started().request(ADA, { method: 'POST', body: VOICE })
    expect(answer.status).toBe(405)
    expect(answer.headers.get('allow')).toBe('GET, HEAD, PUT, DELETE')
  })
})

test('where the disk takes nothing, it is said', async () => {
  const app = anApp({ voices: voiceStore('/dev/null/voices') }).app
  expect((await app.request(ADA, { method: 'PUT', body: VOICE })).status).toBe(507)
  expect((await app.request(ADA)).status).toBe(404)
})
