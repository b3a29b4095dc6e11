/** Requests that no browser writes, byte by byte over a real connection. */
import { once } from 'node:events'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { connect, type AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { serve, type ServerType } from '@hono/node-server'
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from 'vitest'
import { anApp, NOW } from '../helpers/an-app.ts'
import { counting, STARTED } from '../helpers/stamping.ts'

const top = mkdtempSync(join(tmpdir(), 'sidecall-raw-'))
const pageFolder = join(top, 'page')
const { app, records, logged } = anApp({ pageFolder: makePage() })
const printed = vi.spyOn(console, 'error')
const event = counting()(NOW)(STARTED)
let server: ServerType

function makePage(): string {
  mkdirSync(join(pageFolder, 'assets'), { recursive: true })
  writeFileSync(join(pageFolder, 'index.html'), '<!doctype html><title>Sidecall</title>')
  writeFileSync(join(top, 'secret.txt'), 'not for you')
  return pageFolder
}

beforeAll(async () => {
  server = serve({ fetch: app.fetch, port: 0, hostname: '127.0.0.1' })
  await once(server, 'listening')
})
afterEach(async () => {
  // Whatever was sent, the next one is answered.
  const after = await exchange('GET /api/time HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n')
  if (!after.startsWith('HTTP/1.1 200 OK')) throw new Error(`The server does not answer: ${after}`)
  const failures = logged.filter((line) => !line.startsWith('Refused '))
  if (failures.length > 0 || printed.mock.calls.length > 0) throw new Error('The server had something to say.')
})
afterAll(() => {
  printed.mockRestore()
  server.close()
  rmSync(top, { recursive: true })
})

/** Everything that comes back until the server closes the connection. */
async function exchange(...parts: readonly (string | Uint8Array)[]): Promise<string> {
  const socket = connect((server.address() as AddressInfo).port, '127.0.0.1')
  let answer = ''
  socket.setEncoding('utf8').on('data', (text) => (answer += text))
  // Cut off for sending too much, say; what was answered before that counts.
  socket.on('error', () => {})
  for (const part of parts) socket.write(part)
  await new Promise((closed) => socket.on('close', closed))
  return answer
}

const get = (target: string) => exchange(`GET ${target} HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n`)

describe('a path that climbs out of the page', () => {
  test.each([
    '/../secret.txt',
    '/assets/../../secret.txt',
    '/./../secret.txt',
    '/..%2fsecret.txt',
    '/%2e%2e/secret.txt',
    '/..\\secret.txt',
    '//../secret.txt',
    `//${join(top, 'secret.txt')}`,
    `http://localhost/../secret.txt`,
    '/%2e%2e%2f%2e%2e%2fsecret.txt',
    '/%00/../secret.txt'
  ])('finds nothing: %s', async (target) => {
    const answer = await get(target)
    expect(answer).toMatch(/^HTTP\/1\.1 4\d\d /)
    expect(answer).not.toContain('not for you')
  })

  test('while the page itself is there', async () => {
    expect(await get('/')).toContain('<title>Sidecall</title>')
  })
})

describe('a request that is none', () => {
  test.each([
    ['no HTTP', 'hello\r\n\r\n'],
    ['a version from nowhere', 'GET / HTTP/9.9\r\nHost: localhost\r\n\r\n'],
    ['no host', 'GET /api/time HTTP/1.1\r\nConnection: close\r\n\r\n'],
    ['a host that is no name', 'GET /api/time HTTP/1.1\r\nHost: a b/c\r\nConnection: close\r\n\r\n'],
    ['two lengths', 'POST /api/events HTTP/1.1\r\nHost: x\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n{}'],
    [
      'a length and chunks',
      'POST /api/events HTTP/1.1\r\nHost: x\r\nContent-Length: 1\r\nTransfer-Encoding: chunked\r\n\r\n{}'
    ],
    // Just over Node's limit of 16 KiB: what the server leaves unread, a reset may take the answer away with.
    ['headers without end', `GET / HTTP/1.1\r\nHost: localhost\r\nX-Long: ${'x'.repeat(17_000)}\r\n\r\n`]
  ])('is answered with 4xx and nothing of the inside: %s', async (_, text) => {
    const answer = await exchange(text)
    expect(answer).toMatch(/^HTTP\/1\.1 4\d\d /)
    expect(answer).not.toMatch(/Error:|\.js|\.ts|node_modules/)
  })

  test.each(['TRACE', 'CONNECT', 'BREW'])('nor is %s an answer to anything', async (method) => {
    const answer = await exchange(`${method} /api/time HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n`)
    expect(answer).not.toMatch(/^HTTP\/1\.1 [25]/)
  })
})

describe('a body', () => {
  const head = 'POST /api/events HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nConnection: close\r\n'

  test('larger than the limit is refused by what it says of itself', async () => {
    const answer = await exchange(`${head}Content-Length: 50000000\r\n\r\n`)
    expect(answer).toMatch(/^HTTP\/1\.1 413 /)
    expect(answer).toContain('application/problem+json')
  })

  test('larger than the limit is refused while it comes, in chunks', async () => {
    const chunk = `${(64 * 1024).toString(16)}\r\n${'x'.repeat(64 * 1024)}\r\n`
    const answer = await exchange(
      `${head}Transfer-Encoding: chunked\r\n\r\n`,
      ...Array<string>(40).fill(chunk),
      '0\r\n\r\n'
    )
    expect(answer).toMatch(/^HTTP\/1\.1 413 /)
  })

  test('that stops in the middle stores nothing', async () => {
    const body = JSON.stringify({ events: [event] })
    const socket = connect((server.address() as AddressInfo).port, '127.0.0.1')
    socket.write(`${head}Content-Length: ${body.length}\r\n\r\n${body.slice(0, -1)}`)
    await new Promise<void>((sent) => socket.end(() => sent()))
    await once(socket.resume(), 'close')
    expect((await records.eventsAfter('run', 0)).events).toEqual([])
  })
})
