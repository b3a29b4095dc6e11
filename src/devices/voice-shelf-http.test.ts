import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { http, HttpResponse } from 'msw'
import { setupServer } from 'msw/node'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { anApp } from '../../tests/helpers/an-app.ts'
import { voiceStore } from '../../server/voices/voice-store.ts'
import { BANDS } from '../core/ears/sound.ts'
import { httpVoiceShelf } from './voice-shelf-http.ts'

const base = 'http://shop.test'
const network = setupServer()
const shelf = httpVoiceShelf({ base })
const ADA = { operator: 'Ada / niña', language: 'es' }
const TAKES = [
  { words: 'ya está', takes: [{ speech: new Float32Array(3 * BANDS).fill(1), room: new Float32Array(BANDS).fill(1) }] }
]

beforeAll(() => network.listen({ onUnhandledRequest: 'error' }))
afterEach(() => network.resetHandlers())
afterAll(() => network.close())

const everythingAnswers = (answer: () => Response) => network.use(http.all(`${base}/*`, answer))

describe('of the real server', () => {
  let folder: string
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'sidecall-shelf-'))
    const { app } = anApp({ voices: voiceStore(folder) })
    network.use(http.all(`${base}/*`, ({ request }) => app.fetch(request)))
  })
  afterEach(() => rmSync(folder, { recursive: true }))

  test('a voice is kept, given and removed', async () => {
    expect(await shelf.get(ADA, 0)).toEqual({ kind: 'none-as-new' })
    expect(await shelf.put(ADA, TAKES, 0)).toEqual({ kind: 'kept', revision: 1 })
    const voice = { kind: 'voice', revision: 1, takes: [{ words: 'ya está', takes: [{}] }] }
    expect(await shelf.get(ADA, 0)).toMatchObject(voice)
    expect(await shelf.get(ADA, 1)).toEqual({ kind: 'same' })
    expect(await shelf.get(ADA, 2)).toEqual({ kind: 'none-as-new' })
    expect(await shelf.remove(ADA, 1)).toEqual({ kind: 'removed', revision: 2 })
    expect(await shelf.get(ADA, 1)).toEqual({ kind: 'forgotten' })
    expect(await shelf.get(ADA, 3)).toEqual({ kind: 'none-as-new' })
    expect(await shelf.put(ADA, TAKES, 7)).toEqual({ kind: 'kept', revision: 8 })
  })

  test('what it does not take is refused', async () => {
    expect(await shelf.put({ ...ADA, operator: ' ' }, TAKES, 0)).toBe('refused')
  })
})

/** As networks in shops answer: proxies, sign-in pages, a server that is being replaced. */
const FOREIGN: readonly (readonly [string, () => Response])[] = [
  ['a page that is not there', () => new HttpResponse('<h1>Not found</h1>', { status: 404 })],
  ['a page that is gone', () => new HttpResponse('', { status: 410 })],
  ['a sign-in page', () => HttpResponse.html('<form>Sign in to the network</form>')],
  ['a refusal', () => new HttpResponse('<h1>Forbidden</h1>', { status: 403 })],
  ['a server in trouble', () => new HttpResponse(null, { status: 502 })],
  ['no network', () => HttpResponse.error()]
]

test.each(FOREIGN)('%s says nothing about a voice', async (_, answer) => {
  everythingAnswers(answer)
  expect(await shelf.get(ADA, 1)).toBe('away')
  expect(await shelf.put(ADA, TAKES, 1)).toBe('away')
  expect(await shelf.remove(ADA, 1)).toBe('away')
})
