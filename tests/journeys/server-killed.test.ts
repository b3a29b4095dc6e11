import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import type { RunEvent } from '../../src/core/run/event.ts'
import { serverOverHttp } from '../../src/devices/server-http.ts'
import { bundlesServer, serverProcess, type ServerProcess } from '../helpers/server-process.ts'
import { counting, STARTED } from '../helpers/stamping.ts'
import { Sqlite } from '../../server/storage/sqlite-engine.ts'

bundlesServer()

/** `npm run eval:faults -- --kills 100` asks for more. */
const KILLS = Number(process.env['SIDECALL_KILLS'] ?? 20)
const TABLETS = 3

/** One device that sends what it has, batch after batch, as an outbox does: the same again until the server has it. */
function tablet(name: string) {
  const stamp = counting(name)
  const acknowledged: RunEvent[] = []
  let unsent: readonly RunEvent[] = [{ ...stamp(1000)(STARTED), runId: name }]

  return {
    name,
    acknowledged: (): readonly RunEvent[] => acknowledged,
    unsent: (): readonly RunEvent[] => unsent,
    async sendUntilGone(server: ServerProcess, onAnswer: () => void): Promise<void> {
      const link = serverOverHttp({ base: server.url })
      for (;;) {
        const answered = await link.send(unsent)
        if (answered.kind === 'failed') {
          expect(answered.failure).toEqual({ kind: 'unreachable' })
          return
        }
        expect(answered.value).toEqual({ stored: unsent.map(({ id }) => id), rejected: [] })
        acknowledged.push(...unsent)
        const size = 1 + Math.floor(Math.random() * 20)
        unsent = Array.from({ length: size }, (_, index) => ({
          ...stamp(2000 + index)({ type: 'problem-reported', lane: 'left', text: 'x'.repeat(index * 50) }),
          runId: name
        }))
        onAnswer()
      }
    }
  }
}

/** Looked at in a copy, so that the next start finds what the kill left. */
function integrityOf(folder: string): unknown {
  const copy = mkdtempSync(join(tmpdir(), 'sidecall-copy-'))
  cpSync(folder, copy, { recursive: true })
  const store = new Sqlite(join(copy, 'sidecall.db'))
  const found: unknown = store.pragma('integrity_check', { simple: true })
  store.close()
  rmSync(copy, { recursive: true })
  return found
}

test(
  `killed ${KILLS} times in the middle of its work, the server has every acknowledged event, once`,
  { timeout: 60_000 + KILLS * 6000 },
  async () => {
    const folder = mkdtempSync(join(tmpdir(), 'sidecall-killed-'))
    const tablets = Array.from({ length: TABLETS }, (_, index) => tablet(`tablet-${index}`))
    try {
      for (let kill = 0; kill <= KILLS; kill += 1) {
        if (kill > 0) expect(integrityOf(folder)).toBe('ok')
        const server = await serverProcess({ SIDECALL_DATA: folder })
        const link = serverOverHttp({ base: server.url })
        for (const { name, acknowledged, unsent } of tablets) {
          const answered = await link.events(name, 0)
          if (answered.kind === 'failed') throw new Error(JSON.stringify(answered.failure))
          const ids = answered.value.events.map(({ id }) => id)
          expect(new Set(ids).size).toBe(ids.length)
          expect(answered.value.events.slice(0, acknowledged().length)).toEqual(acknowledged())
          // What comes after them is the batch whose answer was cut off: all of it, or nothing.
          const rest = answered.value.events.slice(acknowledged().length)
          expect([[], unsent()]).toContainEqual(rest)
        }
        if (kill === KILLS) {
          await server.kill()
          break
        }
        let answersLeft = Math.floor(Math.random() * 60)
        const sending = tablets.map((each) =>
          each.sendUntilGone(server, () => {
            answersLeft -= 1
            // At any moment of the next request: while it travels, is checked, is written, is answered.
            if (answersLeft === 0) setTimeout(() => void server.kill(), Math.random() * 8)
          })
        )
        if (answersLeft === 0) void server.kill()
        await Promise.all(sending)
        await server.kill()
      }
      expect(tablets.flatMap((each) => each.acknowledged()).length).toBeGreaterThan(KILLS)
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  }
)
