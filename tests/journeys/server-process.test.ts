import { once } from 'node:events'
import { chmodSync, existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { createServer, connect, type AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { MIGRATIONS } from '../../server/storage/migrations.ts'
import { serverOverHttp } from '../../src/devices/server-http.ts'
import { bundlesServer, failedStart, serverProcess } from '../helpers/server-process.ts'
import { counting, STARTED } from '../helpers/stamping.ts'
import { Sqlite } from '../../server/storage/sqlite-engine.ts'

bundlesServer()

let folder = ''
const store = () => join(folder, 'sidecall.db')
const started = counting()(1000)(STARTED)

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-process-'))
})
afterEach(() => {
  chmodSync(folder, 0o700)
  rmSync(folder, { recursive: true, force: true })
})

interface Unwritable {
  readonly name: string
  make(): Promise<{ readonly data: string; readonly named: string }>
}

/** No permission keeps root from writing, but the system's own list of processes takes no files from anybody. */
const forRoot: readonly Unwritable[] = [
  { name: 'not even root may write in the folder', make: async () => ({ data: '/proc', named: '/proc' }) }
]

const forOthers: readonly Unwritable[] = [
  {
    name: 'the folder may not be written',
    async make() {
      chmodSync(folder, 0o555)
      return { data: folder, named: folder }
    }
  },
  {
    name: 'the store may only be read',
    async make() {
      const first = await serverProcess({ SIDECALL_DATA: folder })
      await first.stop()
      chmodSync(store(), 0o444)
      return { data: folder, named: store() }
    }
  }
]

const unwritable = process.getuid?.() === 0 ? forRoot : forOthers

describe('a start', { timeout: 30_000 }, () => {
  test('prints the address to open, and while nobody owns the shop the code that makes an owner', async () => {
    const server = await serverProcess({ SIDECALL_DATA: folder })
    const { code, words } = await server.stop('SIGINT')
    expect(words).toMatch(
      /^Sidecall is ready: http:\/\/localhost:\d+\b.*\nThis shop has no owner yet\. .*: [0-9A-Z]{4}-[0-9A-Z]{4}\n$/
    )
    expect(code).toBe(0)
  })

  test('takes trusted time up where the last start left it, and every procedure of the shop', async () => {
    const first = await serverProcess({ SIDECALL_DATA: folder })
    const link = serverOverHttp({ base: first.url })
    await link.send([started])
    const before = await link.time()
    await first.kill()
    const second = await serverProcess({ SIDECALL_DATA: folder })
    const again = serverOverHttp({ base: second.url })
    const after = await again.time()
    if (before.kind === 'failed' || after.kind === 'failed') throw new Error('No answer.')
    expect(after.value.trusted).toBeGreaterThanOrEqual(before.value.trusted)
    const listed = await again.procedures()
    if (listed.kind === 'failed') throw new Error('No answer.')
    expect(listed.value.faults).toEqual([])
    for (const { id, hash } of listed.value.procedures) {
      expect(await again.procedure(hash)).toMatchObject({ kind: 'answered', value: { id } })
    }
    expect(listed.value.procedures.length).toBeGreaterThan(0)
    await second.stop()
  })
})

describe('a start that cannot be is told in words and ends with 1', { timeout: 30_000 }, () => {
  test('the port is taken', async () => {
    const other = createServer().listen(0, '127.0.0.1')
    await once(other, 'listening')
    const { port } = other.address() as AddressInfo
    try {
      const { code, words } = await failedStart({ SIDECALL_DATA: folder, PORT: String(port) })
      expect(code).toBe(1)
      expect(words).toContain(`Port ${port} is in use`)
      expect(words).toMatch(/choose another port: PORT=\d+ npm start/)
      expect(words).not.toMatch(/at .*:\d+:\d+/)
    } finally {
      other.close()
    }
  })

  test.each([
    ['PORT', 'eighty'],
    ['PORT', '65536'],
    ['HOST', 'no-such-host.invalid'],
    ['HOST', '192.0.2.1']
  ])('%s=%s', async (name, value) => {
    const { code, words } = await failedStart({ SIDECALL_DATA: folder, [name]: value })
    expect(code).toBe(1)
    expect(words).toContain(`${name} is "${value}"`)
    expect(words).not.toMatch(/at .*:\d+:\d+/)
  })

  test('the store is damaged, and stays as it is', async () => {
    const damaged = 'This was a store once. '.repeat(1000)
    writeFileSync(store(), damaged)
    const { code, words } = await failedStart({ SIDECALL_DATA: folder })
    expect(code).toBe(1)
    expect(words).toContain(store())
    expect(words).toMatch(/backup/)
    expect(words).toMatch(/left as it is/)
    expect(readFileSync(store(), 'utf8')).toBe(damaged)
  })

  test('the store is of a newer version, and stays as it is', async () => {
    const newer = new Sqlite(store())
    newer.pragma(`user_version = ${MIGRATIONS.length + 1}`)
    newer.exec("CREATE TABLE secrets (secret TEXT); INSERT INTO secrets VALUES ('kept')")
    newer.close()
    const before = readFileSync(store())
    const { code, words } = await failedStart({ SIDECALL_DATA: folder })
    expect(code).toBe(1)
    expect(words).toMatch(/newer Sidecall/)
    expect(readFileSync(store())).toEqual(before)
  })

  test.each(unwritable)('$name', async ({ make }) => {
    const { data, named } = await make()
    const { code, words } = await failedStart({ SIDECALL_DATA: data })
    expect(code).toBe(1)
    expect(words).toContain(named)
    expect(words).toMatch(/permissions/)
    expect(words).toMatch(/SIDECALL_DATA/)
  })

  test('another server has the same folder; that one goes on', async () => {
    const first = await serverProcess({ SIDECALL_DATA: folder })
    const { code, words } = await failedStart({ SIDECALL_DATA: folder })
    expect(code).toBe(1)
    expect(words).toContain('Another Sidecall is running')
    const link = serverOverHttp({ base: first.url })
    expect(await link.send([started])).toMatchObject({ kind: 'answered', value: { stored: [started.id] } })
    await first.stop()
  })

  test('a killed server does not keep the folder', async () => {
    const first = await serverProcess({ SIDECALL_DATA: folder })
    await first.kill()
    const second = await serverProcess({ SIDECALL_DATA: folder })
    expect((await second.stop()).code).toBe(0)
  })
})

describe('a stop', { timeout: 30_000 }, () => {
  test.each(['SIGINT', 'SIGTERM', 'SIGHUP'] as const)(
    'by %s ends open streams and leaves one whole file',
    async (signal) => {
      const server = await serverProcess({ SIDECALL_DATA: folder })
      const stream = await fetch(`${server.url}/api/live`)
      const reader = (stream.body as ReadableStream<Uint8Array>).getReader()
      await reader.read()
      await serverOverHttp({ base: server.url }).send([started])
      const ended = server.stop(signal)
      // Read to its end: a stream that breaks off instead would reject.
      while (!(await reader.read()).done);
      const { code, words } = await ended
      expect(code).toBe(0)
      expect(words.split('\n')).toHaveLength(3)
      expect(existsSync(`${store()}-wal`) ? statSync(`${store()}-wal`).size : 0).toBe(0)
      const kept = new Sqlite(store(), { readonly: true })
      expect(kept.prepare('SELECT id FROM events').pluck().all()).toEqual([started.id])
      kept.close()
    }
  )

  test('lets a request that has begun finish', async () => {
    const server = await serverProcess({ SIDECALL_DATA: folder })
    const body = JSON.stringify({ events: [started] })
    const socket = connect(Number(new URL(server.url).port), '127.0.0.1')
    let answer = ''
    socket.setEncoding('utf8').on('data', (text) => (answer += text))
    const head = `POST /api/events HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n`
    socket.write(`${head}Expect: 100-continue\r\nContent-Length: ${body.length}\r\n\r\n`)
    // The server says "continue" once it has the request in hand.
    await once(socket, 'data')
    socket.write(body.slice(0, 10))
    const ended = server.stop()
    await refusesNewcomers(server.url)
    socket.write(body.slice(10))
    await once(socket, 'close')
    expect(answer).toContain('HTTP/1.1 200 OK')
    expect(answer).toContain(started.id)
    expect((await ended).code).toBe(0)
  })

  test('does not wait for ever for somebody who never finishes asking', async () => {
    const server = await serverProcess({ SIDECALL_DATA: folder })
    await serverOverHttp({ base: server.url }).send([started])
    const socket = connect(Number(new URL(server.url).port), '127.0.0.1')
    socket.on('error', () => {})
    socket.write('POST /api/events HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n')
    socket.write('Expect: 100-continue\r\nContent-Length: 100\r\n\r\n')
    await once(socket, 'data')
    await server.stop()
    socket.destroy()
    const kept = new Sqlite(store(), { readonly: true })
    expect(kept.prepare('SELECT id FROM events').pluck().all()).toEqual([started.id])
    kept.close()
  })
})

/** Resolves when the server has begun to stop: it listens no more. */
async function refusesNewcomers(url: string): Promise<void> {
  for (;;) {
    const socket = connect(Number(new URL(url).port), '127.0.0.1')
    const open = await new Promise<boolean>((resolve) => {
      socket.on('connect', () => resolve(true))
      socket.on('error', () => resolve(false))
    })
    socket.destroy()
    if (!open) return
  }
}
