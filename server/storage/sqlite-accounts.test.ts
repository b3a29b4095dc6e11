import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { cheapSecrets } from '../../tests/helpers/memory-accounts.ts'
import { openDatabase } from './open-database.ts'
import { sqliteAccounts } from './sqlite-accounts.ts'
import type { SqliteConnection } from './sqlite-engine.ts'

let folder = ''
let database: SqliteConnection
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-accounts-'))
  const opened = openDatabase(folder)
  if (opened.kind === 'failed') throw new Error(opened.what)
  database = opened.database
})
afterEach(() => {
  database.close()
  rmSync(folder, { recursive: true, force: true })
})

test('what was done can be added to, and neither changed nor deleted', async () => {
  const accounts = sqliteAccounts(database, cheapSecrets())
  const deed = { at: 1, by: 'Ada', device: 'Tablet', what: 'signed-in', about: '' } as const
  await accounts.note(deed)
  expect(() => database.exec("UPDATE deeds SET by = 'Ben'")).toThrow('never changed')
  expect(() => database.exec('DELETE FROM deeds')).toThrow('never deleted')
  expect(() =>
    database.exec(
      "INSERT OR REPLACE INTO deeds (id, at, by, device, what, about) VALUES (1, 2, 'Ben', '', 'signed-in', '')"
    )
  ).toThrow('never')
  expect(await accounts.deeds(0, 10)).toEqual([{ id: 1, ...deed }])
})

test('whoever has left keeps the name, and has no session', async () => {
  const accounts = sqliteAccounts(database, cheapSecrets())
  await accounts.addPerson({ id: 'p', name: 'Ada', role: 'supervisor' }, 1)
  await accounts.startSession({ token: 't', person: 'p', begunAt: 1, seenAt: 1, elevatedUntil: 1 })
  expect(await accounts.changePerson({ id: 'p', name: 'Ada', role: 'supervisor', isActive: false }, 2)).toBe(true)
  expect(await accounts.session('t')).toBeNull()
  expect(await accounts.addPerson({ id: 'q', name: ' ADA', role: 'operator' }, 3)).toBe(false)
})

test('of two who use a code at once, one does', async () => {
  const accounts = sqliteAccounts(database, cheapSecrets())
  await accounts.addCode({ token: 'c', kind: 'pairing', person: null, expiresAt: 10 })
  expect(await accounts.code('c', 9)).toMatchObject({ kind: 'pairing' })
  expect(await Promise.all([accounts.useCode('c'), accounts.useCode('c')])).toEqual([true, false])
  await accounts.addCode({ token: 'd', kind: 'pairing', person: null, expiresAt: 10 })
  expect(await accounts.code('d', 10)).toBeNull()
})

test('what is found in the store lets nobody in: no token, code, password or PIN stands there', async () => {
  const accounts = sqliteAccounts(database, cheapSecrets())
  const { secrets } = accounts
  await accounts.addPerson({ id: 'p', name: 'Ada', role: 'operator' }, 1)
  await accounts.setSecret('p', await secrets.keep('47114711'))
  await accounts.addDevice({ id: 'd', name: 'T', pairedAt: 1, seenAt: 1, token: secrets.ofToken('device-token-1') })
  await accounts.addCode({ token: secrets.ofToken('ABCD-EFGH'), kind: 'pairing', person: null, expiresAt: 10 })
  const bytes = database.serialize().toString('latin1')
  for (const secret of ['47114711', 'device-token-1', 'ABCD-EFGH']) expect(bytes).not.toContain(secret)
})
