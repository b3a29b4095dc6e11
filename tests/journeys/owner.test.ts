/** The owner of a shop and the program's own processes: codes on the console, a lost password, a backup brought back. */
import { execFile } from 'node:child_process'
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { promisify } from 'node:util'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { bundlesServer, serverProcess } from '../helpers/server-process.ts'
import { OWNER, sending } from '../helpers/shop-people.ts'

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

  test('is named in words where there is no store', async () => {
    await expect(ownerCode(join(folder, 'nothing'))).rejects.toMatchObject({
      stderr: expect.stringContaining('There is no store')
    })
  })
})
