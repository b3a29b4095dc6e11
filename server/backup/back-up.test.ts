import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { counting, STARTED } from '../../tests/helpers/stamping.ts'
import { canonicalJson } from '../procedures/content-hash.ts'
import { openSigningKey } from '../signing/signing-key.ts'
import { openPepper } from '../accounts/pepper.ts'
import { VOICES_FOLDER, voiceStore, type Whose } from '../voices/voice-store.ts'
import { openDatabase } from '../storage/open-database.ts'
import { sqliteRecords } from '../storage/sqlite-records.ts'
import { backUp, STORE } from './back-up.ts'
import { restore } from './restore.ts'

const NOW = Date.UTC(2026, 10, 28, 5)
let top: string
let data: string
beforeEach(() => {
  top = mkdtempSync(join(tmpdir(), 'sidecall-backup-'))
  data = join(top, 'data')
})
afterEach(() => rmSync(top, { recursive: true, force: true }))

/** A store that is open, as of a server that runs, with so many more events in a run. */
function store() {
  const opened = openDatabase(data)
  if (opened.kind === 'failed') throw new Error(opened.what)
  openSigningKey(data)
  openPepper(data)
  const records = sqliteRecords(opened.database)
  const stamp = counting()
  return {
    records,
    add: async (count: number, first = false) => {
      const events = [
        ...(first ? [stamp(1000)(STARTED)] : []),
        ...Array.from({ length: count }, (_, index) => stamp(2000 + index)({ type: 'paused' }))
      ]
      const added = await records.addEvents(
        events.map((event) => ({ event, canonical: canonicalJson(event) })),
        3000
      )
      expect(added.kind).toBe('added')
    }
  }
}

function addToList(folder: string, name: string): void {
  const path = join(folder, 'backup.json')
  const list = JSON.parse(readFileSync(path, 'utf8')) as { files: unknown[] }
  list.files.push({ name, bytes: 0, sha256: '' })
  writeFileSync(path, JSON.stringify(list))
}

async function taken(at = NOW): Promise<string> {
  const backedUp = await backUp(data, join(top, 'backups'), at)
  if (backedUp.kind === 'failed') throw new Error(backedUp.what)
  return backedUp.folder
}

test('a backup taken from a running store brings back what was in it, and its key', async () => {
  const live = store()
  await live.add(7, true)
  const folder = await taken()
  await live.add(5)
  const refused = restore(folder, data, NOW)
  expect(refused).toMatchObject({ kind: 'failed', what: expect.stringMatching(/^Another Sidecall is running/) })
  await live.records.close()

  const key = readFileSync(join(data, 'signing-key.pem'), 'utf8')
  const pepper = readFileSync(join(data, 'pepper'), 'utf8')
  const restored = restore(folder, data, NOW)
  expect(restored).toMatchObject({ kind: 'done', list: { runs: 1, events: 8 } })
  expect(readFileSync(join(data, 'signing-key.pem'), 'utf8')).toBe(key)
  expect(readFileSync(join(data, 'pepper'), 'utf8')).toBe(pepper)
  const again = store()
  const [run] = await again.records.runs(10)
  expect((await again.records.eventsAfter(run?.runId ?? '', 0)).events).toHaveLength(8)
  await again.records.close()
  // What came after the backup is not lost either: it lies beside.
  const aside = restored.kind === 'done' ? (restored.aside ?? '') : ''
  expect(existsSync(join(aside, STORE))).toBe(true)
})

test('practised voices come back, and those that were forgotten since do not', async () => {
  const live = store()
  await live.add(1, true)
  const voices = () => voiceStore(join(data, VOICES_FOLDER))
  const [ana, ben, cleo] = ['Ana', 'Ben', 'Cleo'].map((person) => ({ person, language: 'en' })) as [Whose, Whose, Whose]
  for (const one of [ana, ben]) voices().keep(one, Uint8Array.of(1, 2, 3), 0)
  const folder = await taken()
  voices().forget(ben, 1)
  voices().keep(cleo, Uint8Array.of(4), 0)
  await live.records.close()
  expect(restore(folder, data, NOW)).toMatchObject({ kind: 'done' })
  expect(voices().read(ana)).toEqual({ kind: 'voice', revision: 1, bytes: Uint8Array.of(1, 2, 3) })
  expect(voices().read(ben)).toEqual({ kind: 'forgotten', revision: 2 })
  // Its devices have it, and send it again.
  expect(voices().read(cleo)).toBeNull()
  const sizes = readdirSync(join(data, VOICES_FOLDER)).map((name) => statSync(join(data, VOICES_FOLDER, name)).size)
  expect(new Set(sizes)).toEqual(new Set([0, 3]))
})

test('a backup that was changed, cut off or never finished is not restored, and nothing is touched', async () => {
  const live = store()
  await live.add(3, true)
  const folder = await taken()
  await live.records.close()
  const before = readdirSync(data).toSorted()
  const spoilt = (spoil: (copy: string) => void) => {
    const copy = `${folder}-copy`
    rmSync(copy, { recursive: true, force: true })
    cpSync(folder, copy, { recursive: true })
    spoil(copy)
    const result = restore(copy, data, NOW)
    return result.kind === 'failed' ? result.what : result.kind
  }
  expect(
    spoilt((copy) => {
      const bytes = readFileSync(join(copy, STORE))
      bytes[5000] = (bytes[5000] ?? 0) ^ 1
      writeFileSync(join(copy, STORE), bytes)
    })
  ).toMatch(/not as it was/)
  expect(spoilt((copy) => writeFileSync(join(copy, STORE), readFileSync(join(copy, STORE)).subarray(0, 4096)))).toMatch(
    /not as it was/
  )
  expect(spoilt((copy) => rmSync(join(copy, STORE)))).toMatch(/is missing/)
  expect(spoilt((copy) => rmSync(join(copy, 'backup.json')))).toMatch(/no finished backup/)
  expect(
    spoilt((copy) => writeFileSync(join(copy, 'backup.json'), '{"files": [{"name": "../../etc/passwd"}]}'))
  ).toMatch(/no finished backup/)
  for (const name of ['..', '.', 'voices/..', 'voices/../../x'])
    expect(spoilt((copy) => addToList(copy, name))).toMatch(/no finished backup/)
  expect(readdirSync(data).toSorted()).toEqual(before)
})

test('where there is no store, or the same second was used, nothing is made', async () => {
  expect(await backUp(data, join(top, 'backups'), NOW)).toMatchObject({ kind: 'failed' })
  const live = store()
  await live.add(1, true)
  await taken()
  expect(await backUp(data, join(top, 'backups'), NOW)).toMatchObject({ kind: 'failed' })
  expect(readdirSync(join(top, 'backups'))).toHaveLength(1)
  await live.records.close()
})

test('a damaged store is replaced by its backup', async () => {
  const live = store()
  await live.add(3, true)
  const folder = await taken()
  await live.records.close()
  writeFileSync(join(data, STORE), 'not a database at all')
  expect(restore(folder, data, NOW)).toMatchObject({ kind: 'done', list: { events: 4 } })
})
