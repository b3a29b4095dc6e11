import { expect, test } from 'vitest'
import { sseServerStream } from './server-stream-sse.ts'

function world() {
  const target = new EventTarget()
  let closed = false
  const stream = sseServerStream({
    addEventListener: (type, listener) => target.addEventListener(type, (event) => listener(event as MessageEvent)),
    close: () => (closed = true)
  })
  const told: (string | null)[] = []
  const forget = stream.onMoved((runId) => told.push(runId))
  const send = (type: string, data?: string) => target.dispatchEvent(Object.assign(new Event(type), { data }))
  return { stream, told, forget, send, isClosed: () => closed }
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

test('a browser without such streams tells nothing', () => {
  const stream = sseServerStream(null)
  const told: unknown[] = []
  stream.onMoved((runId) => told.push(runId))
  stream.close()
  expect(told).toEqual([])
})
