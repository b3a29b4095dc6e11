import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { anApp, NOW } from '../../tests/helpers/an-app.ts'
import { sending } from '../../tests/helpers/shop-people.ts'
import { counting, STARTED } from '../../tests/helpers/stamping.ts'
import { createLive, type Live } from '../live.ts'

const stamp = counting()(NOW)
const BEAT = `event: beat\ndata: ${NOW}\n\n`

// The stream's beat is the only timer here.
beforeEach(() => vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] }))
afterEach(() => vi.useRealTimers())

/** A live that counts who listens. */
function watched(): Live & { listening(): number } {
  const live = createLive()
  let count = 0
  return {
    ...live,
    listening: () => count,
    listen(tell, onEnd, onOffer) {
      count += 1
      const stop = live.listen(tell, onEnd, onOffer)
      return () => {
        count -= 1
        stop()
      }
    }
  }
}

async function aStream(live = watched()) {
  const { app, send } = anApp({ live })
  const response = await app.request('/api/live')
  const reader = response.body?.pipeThrough(new TextDecoderStream()).getReader()
  if (!reader) throw new Error('There is no body.')
  return { app, send, live, response, reader, next: async () => (await reader.read()).value }
}

describe('the live stream', () => {
  test('is a stream of server-sent events that nothing on the way keeps or holds back', async () => {
    const { response, next, reader } = await aStream()
    expect(response.headers.get('content-type')).toBe('text/event-stream')
    expect(response.headers.get('cache-control')).toBe('no-cache')
    expect(response.headers.get('x-accel-buffering')).toBe('no')
    expect(await next()).toBe(BEAT)
    await reader.cancel()
  })

  test('beats at once and then every 20 s, so that a lost server is noticed', async () => {
    const { next, reader } = await aStream()
    expect(await next()).toBe(BEAT)
    vi.advanceTimersByTime(40_000)
    expect([await next(), await next()]).toEqual([BEAT, BEAT])
    await reader.cancel()
  })

  test('tells when other procedures are offered', async () => {
    const { next, live, reader } = await aStream()
    await next()
    live.offer()
    expect(await next()).toMatch(/^event: offered\n/)
    await reader.cancel()
  })

  test('tells which run has moved, once for each batch that brought something new', async () => {
    const { next, send, reader } = await aStream()
    await next()
    const events = [stamp(STARTED), stamp({ type: 'paused' })]
    await send({ events })
    await send({ events })
    await send({ events: [{ ...stamp(STARTED), runId: 'other' }] })
    expect(await next()).toBe('event: moved\ndata: {"runId":"run","position":2}\n\n')
    expect(await next()).toBe('event: moved\ndata: {"runId":"other","position":3}\n\n')
    await reader.cancel()
  })

  test('ends when the server stops, and leaves nothing behind', async () => {
    const { next, live, reader } = await aStream()
    await next()
    live.end()
    expect((await reader.read()).done).toBe(true)
    expect(live.listening()).toBe(0)
    expect(vi.getTimerCount()).toBe(0)
  })

  test('that is asked for while the server stops ends at once', async () => {
    const live = watched()
    live.end()
    const { reader } = await aStream(live)
    let read = await reader.read()
    while (!read.done) {
      expect(read.value).toBe(BEAT)
      read = await reader.read()
    }
    expect(vi.getTimerCount()).toBe(0)
  })

  test('of a device that has been removed ends with its next beat', async () => {
    const live = watched()
    const shop = anApp({ live })
    const boss = await shop.owner()
    const tablet = shop.browser()
    const { code } = (await (await boss('/api/pairing-codes', sending('POST'))).json()) as { code: string }
    const paired = await tablet('/api/devices', sending('POST', { code, name: 'Tablet' }))
    const { device } = (await paired.json()) as { device: { id: string } }
    const reader = (await tablet('/api/live')).body?.pipeThrough(new TextDecoderStream()).getReader()
    expect((await reader?.read())?.value).toBe(BEAT)
    vi.advanceTimersByTime(20_000)
    expect((await reader?.read())?.value).toBe(BEAT)
    expect((await boss(`/api/devices/${device.id}`, { method: 'DELETE' })).status).toBe(200)
    vi.advanceTimersByTime(20_000)
    expect((await reader?.read())?.done).toBe(true)
    expect(live.listening()).toBe(0)
  })

  test('of a page that has gone away leaves nothing behind', async () => {
    const { next, live, reader } = await aStream()
    await next()
    expect(live.listening()).toBe(1)
    await reader.cancel()
    await vi.waitFor(() => expect(live.listening()).toBe(0))
    expect(vi.getTimerCount()).toBe(0)
  })

  test('asked for without its body opens no stream', async () => {
    const live = watched()
    const answer = await anApp({ live }).app.request('/api/live', { method: 'HEAD' })
    expect(answer.status).toBe(200)
    expect(answer.headers.get('content-type')).toBe('text/event-stream')
    expect(live.listening()).toBe(0)
    expect(vi.getTimerCount()).toBe(0)
  })
})
