/** The owner of a shop and the program's own processes: codes on the console, a lost password, a backup brought back. */
import { execFile } from 'node:child_process'
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { promisify } from 'node:util'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { openDatabase } from '../../server/storage/open-database.ts'
import { bundlesServer, serverProcess } from '../helpers/server-process.ts'
import { OWNER, sending } from '../helpers/shop-people.ts'
import { counting, STARTED } from '../helpers/stamping.ts'

const top = resolve(import.meta.dirname, '../..')
const CODE = /[0-9A-Z]{4}-[0-9A-Z]{4}/
bundlesServer()

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-owner-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

async function script(file: string, data: string, ...given: readonly string[]): Promise<string> {
  const { stdout } = await promisify(execFile)(process.execPath, ['--import', 'tsx', file, ...given], {
    cwd: top,
    env: { PATH: process.env['PATH'], SIDECALL_DATA: data }
  })
  return stdout
}
const ownerCode = async (data: string) => CODE.exec(await script('server/accounts/main.ts', data))?.[0] ?? ''

/** As if the clock on the wall had been set back by so much while the run was open. */
function moveTime(data: string, byMs: number): void {
  const opened = openDatabase(data)
  if (opened.kind === 'failed') throw new Error(opened.what)
  const moved = opened.database
    .prepare(
      "UPDATE facts SET value = json_set(value, '$.trusted', json_extract(value, '$.trusted') + ?) WHERE name = 'time-anchor'"
    )
    .run(byMs)
  opened.database.close()
  expect(moved.changes).toBe(1)
}

describe('an owner', { timeout: 60_000 }, () => {
  test('who lost the password gets in by a code made beside the running server; the old one is over', async () => {
    const server = await serverProcess({ SIDECALL_DATA: folder })
    const become = async (password: string) =>
      (
        await fetch(
          `${server.url}/api/password`,
          sending('POST', { code: await ownerCode(folder), ...OWNER, password })
        )
      ).status
    const signIn = async (password: string) =>
      (await fetch(`${server.url}/api/session`, sending('POST', { ...OWNER, password }))).status
    expect(await become(OWNER.password)).toBe(200)
    expect(await signIn(OWNER.password)).toBe(200)
    expect(await become('four blue buckets')).toBe(200)
    expect([await signIn(OWNER.password), await signIn('four blue buckets')]).toEqual([403, 200])
    const { words } = await server.stop()
    // The console says the first code, and nothing that anybody sent.
    for (const secret of [OWNER.password, 'four blue buckets']) expect(words).not.toContain(secret)
  })

  test('signs in with the same password after a backup is brought back elsewhere', async () => {
    const data = join(folder, 'data')
    const server = await serverProcess({ SIDECALL_DATA: data })
    const code = await ownerCode(data)
    await fetch(`${server.url}/api/password`, sending('POST', { code, ...OWNER }))
    await script('server/backup/main.ts', data, 'backup', join(folder, 'backups'))
    await server.stop()
    const [backup = ''] = readdirSync(join(folder, 'backups'))
    const elsewhere = join(folder, 'elsewhere')
    await script('server/backup/main.ts', elsewhere, 'restore', join(folder, 'backups', backup))
    const again = await serverProcess({ SIDECALL_DATA: elsewhere })
    expect((await fetch(`${again.url}/api/session`, sending('POST', OWNER))).status).toBe(200)
    const { words } = await again.stop()
    expect(words).not.toMatch(CODE)
  })

  test("has an hour for the code by the server's time, whatever the clock on the wall says meanwhile", async () => {
    const server = await serverProcess({ SIDECALL_DATA: folder })
    const begun = counting()(Date.now())(STARTED)
    await fetch(`${server.url}/api/events`, sending('POST', { events: [begun] }))
    await server.stop()
    moveTime(folder, 24 * 3600_000)
    const again = await serverProcess({ SIDECALL_DATA: folder })
    const code = await ownerCode(folder)
    expect((await fetch(`${again.url}/api/password`, sending('POST', { code, ...OWNER }))).status).toBe(200)
    await again.stop()
  })

  test('is named in words where there is no store', async () => {
    await expect(ownerCode(join(folder, 'nothing'))).rejects.toMatchObject({
      stderr: expect.stringContaining('There is no store')
    })
  })
})
