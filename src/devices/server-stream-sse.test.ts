import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { sseServerStream } from './server-stream-sse.ts'

function world() {
  let target = new EventTarget()
  let closed = false
  let opened = 0
  const state = { readyState: 1 }
  const stream = sseServerStream(() => {
    opened += 1
    const own = new EventTarget()
    target = own
    return {
      get readyState() {
        return state.readyState
      },
      addEventListener: (type, listener) => own.addEventListener(type, (event) => listener(event as MessageEvent)),
      close: () => (closed = true)
    }
  })
  const told: (string | null)[] = []
  const forget = stream.onMoved((runId) => told.push(runId))
  const send = (type: string, data?: string) => target.dispatchEvent(Object.assign(new Event(type), { data }))
  return { stream, told, forget, send, state, opened: () => opened, isClosed: () => closed }
}

test('tells which run has moved on, and that anything may have when the stream begins', () => {
  const it = world()
  it.send('open')
  it.send('moved', '{"runId":"run-1","position":7}')
  it.send('beat', '123')
  expect(it.told).toEqual([null, 'run-1'])
})

test.each(['', 'no json', '{}', '{"runId":5}', 'null'])('passes over what it does not know: %s', (data) => {
  const it = world()
  it.send('moved', data)
  expect(it.told).toEqual([])
})

test('tells nobody who has stopped listening, and closes', () => {
  const it = world()
  it.forget()
  it.send('open')
  it.stream.close()
  expect(it.told).toEqual([])
  expect(it.isClosed()).toBe(true)
})

describe('a stream that the browser has given up', () => {
  beforeEach(() => vi.useFakeTimers())
  afterEach(() => vi.useRealTimers())

  // HTML, server-sent events: readyState CLOSED is 2; a lost connection is opened again by the browser itself.
  test('is opened anew after a while, one that was only cut off is not, and a closed one never', () => {
    const it = world()
    it.state.readyState = 0
    it.send('error')
    vi.advanceTimersByTime(60_000)
    expect(it.opened()).toBe(1)
    it.state.readyState = 2
    it.send('error')
    vi.advanceTimersByTime(14_000)
    expect(it.opened()).toBe(1)
    vi.advanceTimersByTime(1000)
    expect(it.opened()).toBe(2)
    it.send('error')
    it.stream.close()
    vi.advanceTimersByTime(60_000)
    expect(it.opened()).toBe(2)
  })
})

test('a browser without such streams tells nothing', () => {
  const stream = sseServerStream(null)
  const told: unknown[] = []
  stream.onMoved((runId) => told.push(runId))
  stream.close()
  expect(told).toEqual([])
})

test('tells that other procedures are offered', () => {
  const it = world()
  let offered = 0
  const forget = it.stream.onOffered(() => (offered += 1))
  it.send('offered', '')
  forget()
  it.send('offered', '')
  expect([offered, it.told]).toEqual([1, []])
})
