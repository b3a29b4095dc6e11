import { createHash } from 'node:crypto'
import { expect, test, vi } from 'vitest'
import { fakeCaches } from '../../tests/helpers/fake-caches.ts'
import { fakeClock } from '../../tests/helpers/fake-clock.ts'
import { packWav } from '../core/talk/clips/ima-adpcm.ts'
import type { ClipsState, SpeechClips } from '../ports/speech-clips.ts'
import { CLIP_CACHE } from './clip-cache.ts'
import { httpSpeechClips } from './speech-clips-http.ts'

const ORIGIN = 'http://kitchen.test'
const wav = (length: number) => packWav({ rate: 16_000, pcm: Int16Array.from({ length }, (_, index) => index) })
const hashOf = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')

/** A shop whose server has rendered these texts, each as a clip of its own length. */
function world(texts: readonly string[]) {
  const clock = fakeClock()
  const caches = fakeCaches()
  const clips = texts.map((spoken, index) => {
    const bytes = wav(100 + index)
    return { spoken, hash: hashOf(bytes), bytes, ms: 5 }
  })
  const server = {
    away: false,
    strange: false,
    rendered: texts.length,
    damaged: new Set<string>(),
    asked: [] as string[],
    voices: ['en']
  }
  const fetch = async (request: Request): Promise<Response> => {
    const { url } = request
    server.asked.push(url.slice(ORIGIN.length))
    if (server.away) throw new TypeError('no network')
    if (server.strange) return new Response('<h1>Not found</h1>', { status: 404 })
    if (url.endsWith('/api/workshop/speech')) {
      const asked = (await request.json()) as { readonly language: string; readonly texts: readonly string[] }
      if (!server.voices.includes(asked.language)) return new Response('', { status: 404 })
      const made = clips.filter(({ spoken }) => asked.texts.includes(spoken))
      return Response.json({
        language: asked.language,
        total: made.length,
        clips: made.map((clip) => ({ ...clip, bytes: clip.bytes.length })),
        pronunciations: []
      })
    }
    if (url.includes('/procedures/none'))
      return Response.json(
        { title: 'Not found' },
        { status: 404, headers: { 'content-type': 'application/problem+json' } }
      )
    if (url.includes('/procedures/'))
      return Response.json({
        language: 'en',
        total: texts.length,
        clips: clips.slice(0, server.rendered).map((clip) => ({ ...clip, bytes: clip.bytes.length })),
        pronunciations: [{ written: 'DV', spoken: 'draw valve' }]
      })
    const clip = clips.find(({ hash }) => url.endsWith(hash))
    if (!clip) return new Response('', { status: 404 })
    return new Response(server.damaged.has(clip.spoken) ? clip.bytes.slice(1) : clip.bytes)
  }
  const open = () => httpSpeechClips({ caches, fetch, clock, origin: ORIGIN })
  return { clock, caches, server, open, clips }
}

/** Digests of the system's own run beside the promises of this thread. */
async function becomes(clips: SpeechClips, state: ClipsState): Promise<void> {
  await vi.waitFor(() => expect(clips.state()).toEqual(state), { timeout: 10_000 })
}

test('fetches all, keeps them, and says what they cover', async () => {
  const { open, caches, server } = world(['Left.', 'Close it.'])
  const clips = open()
  expect(clips.state()).toEqual({ kind: 'none' })
  clips.want('abc', 'en')
  await becomes(clips, { kind: 'whole', total: 2 })
  expect(clips.saying('Left. Close it.', 'en')?.map(({ clip, pause }) => [clip.pcm.length, pause])).toEqual([
    [100, 'long'],
    [101, 'long']
  ])
  expect(clips.saying('Right.', 'en')).toBe(null)
  expect(clips.saying('', 'en')).toBe(null)
  expect(clips.pronunciations()).toEqual([{ written: 'DV', spoken: 'draw valve' }])
  expect(caches.addresses(CLIP_CACHE)).toHaveLength(3)
  expect(server.asked).toHaveLength(3)
})

test('the name of its cache is not one the service worker deletes', () => {
  expect(CLIP_CACHE.startsWith('page ')).toBe(false)
})

test('works from its copies while the server is away, and says so', async () => {
  const { open, server } = world(['Left.', 'Close it.'])
  const first = open()
  first.want('abc', 'en')
  await becomes(first, { kind: 'whole', total: 2 })
  server.away = true
  const later = open()
  later.want('abc', 'en')
  await becomes(later, { kind: 'whole', total: 2 })
  expect(later.saying('Close it.', 'en')).not.toBe(null)
})

test('a 404 of somebody else does not silence it: copies are used, and the server is asked again', async () => {
  const { open, server, clock } = world(['Left.', 'Close it.'])
  server.rendered = 1
  const clips = open()
  clips.want('abc', 'en')
  await becomes(clips, { kind: 'fetching', have: 1, total: 2 })
  server.strange = true
  server.rendered = 2
  await clock.pass(5000)
  await becomes(clips, { kind: 'cut-off', have: 1, total: 2 })
  expect(clips.saying('Left.', 'en')).not.toBe(null)
  server.strange = false
  await clock.pass(5000)
  await becomes(clips, { kind: 'whole', total: 2 })
})

test('nothing kept and the server away: nothing to say, tried again until it is back', async () => {
  const { open, server, clock } = world(['Left.'])
  server.away = true
  const clips = open()
  clips.want('abc', 'en')
  await vi.waitFor(() => expect(clock.pending()).toBe(1))
  expect(clips.state()).toEqual({ kind: 'none' })
  server.away = false
  await clock.pass(5000)
  await becomes(clips, { kind: 'whole', total: 1 })
})

test('clips that are still being rendered come later', async () => {
  const { open, server, clock } = world(['Left.', 'Close it.'])
  server.rendered = 1
  const clips = open()
  clips.want('abc', 'en')
  await becomes(clips, { kind: 'fetching', have: 1, total: 2 })
  expect(clips.saying('Left.', 'en')).not.toBe(null)
  server.rendered = 2
  await clock.pass(5000)
  await becomes(clips, { kind: 'whole', total: 2 })
})

test('a damaged clip is not used, whether it came so or was kept so', async () => {
  const { open, server, caches, clips: made, clock } = world(['Left.', 'Close it.'])
  server.damaged.add('Left.')
  const clips = open()
  clips.want('abc', 'en')
  await becomes(clips, { kind: 'cut-off', have: 1, total: 2 })
  expect(clips.saying('Left.', 'en')).toBe(null)
  const cache = await caches.open(CLIP_CACHE)
  await cache.put(`${ORIGIN}/api/speech/clips/${made[1]?.hash}`, new Response('rubbish'))
  server.damaged.clear()
  const later = open()
  later.want('abc', 'en')
  await becomes(later, { kind: 'whole', total: 2 })
  clips.rest()
  await clock.pass(20_000)
})

test('a full disk keeps nothing, and the clips are used all the same', async () => {
  const { open, caches } = world(['Left.'])
  caches.fill()
  const clips = open()
  clips.want('abc', 'en')
  await becomes(clips, { kind: 'whole', total: 1 })
})

test('after a rest nothing is asked for', async () => {
  const { open, server, clock } = world(['Left.', 'Close it.'])
  server.rendered = 1
  const clips = open()
  clips.want('abc', 'en')
  await becomes(clips, { kind: 'fetching', have: 1, total: 2 })
  clips.rest()
  const asked = server.asked.length
  await clock.pass(60_000)
  expect(server.asked).toHaveLength(asked)
})

test('has clips made of texts in the making, once, beside those of a procedure', async () => {
  const { open, server } = world(['Left.', 'Close it.'])
  const clips = open()
  await clips.prepare(['Close it.', 'Nobody can say that.'], 'en')
  expect(clips.isEmpty()).toBe(false)
  expect(clips.saying('Close it.', 'en')).toHaveLength(1)
  expect(clips.saying('Left.', 'en')).toBeNull()
  const asked = server.asked.length
  await clips.prepare(['Close it.'], 'en')
  expect(server.asked).toHaveLength(asked)
  clips.want('abc', 'en')
  await becomes(clips, { kind: 'whole', total: 2 })
  expect(clips.saying('Left. Close it.', 'en')).toHaveLength(2)
})

test('leaves a text in the making to another voice where the server is away, or speaks another language', async () => {
  const { open, server } = world(['Close it.'])
  const clips = open()
  await clips.prepare(['Close it.'], 'es')
  expect(clips.saying('Close it.', 'en')).toBeNull()
  server.away = true
  await clips.prepare(['Close it.'], 'en')
  expect(clips.saying('Close it.', 'en')).toBeNull()
})

test('texts in the making are said in their own language only, whatever was said before', async () => {
  const { open, server } = world(['Close it.', 'Ciérrelo.'])
  server.voices.push('es')
  const clips = open()
  await clips.prepare(['Close it.'], 'en')
  await clips.prepare(['Ciérrelo.'], 'es-MX')
  expect([clips.saying('Ciérrelo.', 'es'), clips.saying('Close it.', 'en')]).toMatchObject([
    { length: 1 },
    { length: 1 }
  ])
  expect([clips.saying('Ciérrelo.', 'en'), clips.saying('Close it.', 'es')]).toEqual([null, null])
})

test('a language that the server has no voice for is asked for once, and left to the device', async () => {
  const { open, server, clock } = world(['Left.'])
  const clips = open()
  clips.want('abc', 'en')
  await becomes(clips, { kind: 'whole', total: 1 })
  clips.want('none', 'es')
  await becomes(clips, { kind: 'none' })
  expect(server.asked.at(-1)).toBe('/api/speech/procedures/none?language=es')
  expect([clips.isEmpty(), clips.saying('Left.', 'en')]).toEqual([true, null])
  const asked = server.asked.length
  await clock.pass(60_000)
  expect(server.asked.length).toBe(asked)
  clips.want('abc', 'en')
  await becomes(clips, { kind: 'whole', total: 1 })
  expect(clips.saying('Left.', 'en-US')).toHaveLength(1)
})
