import { mkdtempSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { expectProblem } from '../../tests/helpers/expect-problem.ts'
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

const bytesKept = () =>
  readdirSync(join(folder, 'voices')).reduce((sum, name) => sum + statSync(join(folder, 'voices', name)).size, 0)

test('deleted, nothing of it is left but that it was', async () => {
  await put(VOICE)
  expect((await started().request(ADA, { method: 'DELETE' })).status).toBe(204)
  await expectProblem(await started().request(ADA), 410)
  expect(readdirSync(join(folder, 'voices'))).toHaveLength(1)
  expect(bytesKept()).toBe(0)
  expect((await started().request(ADA, { method: 'DELETE' })).status).toBe(204)
  expect(readdirSync(join(folder, 'voices'))).toHaveLength(1)
})

test('where there never was a voice, deleting it leaves nothing', async () => {
  const answer = await started().request(ADA, { method: 'DELETE' })
  expect([answer.status, answer.headers.get('voice-revision')]).toEqual([204, '0'])
  await expectProblem(await started().request(ADA), 404)
})

test('what a device knows that this server does not is neither given nor called forgotten', async () => {
  await put(VOICE)
  expect((await started().request(`${ADA}&known=1`)).status).toBe(204)
  await expectProblem(await started().request(`${ADA}&known=2`), 404)
  const deleted = await started().request(`${ADA}&known=6`, { method: 'DELETE' })
  expect(deleted.headers.get('voice-revision')).toBe('7')
  await expectProblem(await started().request(`${ADA}&known=7`), 410)
  await expectProblem(await started().request(`${ADA}&known=8`), 404)
})

test('a voice from before there were revisions is still given', async () => {
  await put(VOICE)
  const [name = ''] = readdirSync(join(folder, 'voices'))
  renameSync(join(folder, 'voices', name), join(folder, 'voices', name.replace('.1.', '.')))
  const answer = await started().request(ADA)
  expect([answer.status, answer.headers.get('voice-revision')]).toEqual([200, '1'])
  await put(packedTakes([]))
  expect(readdirSync(join(folder, 'voices'))).toEqual([name.replace('.1.', '.2.')])
})

test('of two files of a voice, as a crash or a restore leaves them, only the newer one stays', async () => {
  await put(VOICE)
  const [name = ''] = readdirSync(join(folder, 'voices'))
  writeFileSync(join(folder, 'voices', name.replace('.1.voice', '.4.forgotten')), '')
  await expectProblem(await started().request(ADA), 410)
  expect(bytesKept()).toBe(0)
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
    ['a revision that is none', VOICE, `${ADA}&known=-1`, 422],
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
