import { createHash, randomBytes } from 'node:crypto'
import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { counting } from '../../tests/helpers/stamping.ts'
import { canonicalJson } from '../procedures/content-hash.ts'
import { MIGRATIONS } from './migrations.ts'
import { openDatabase } from './open-database.ts'
import { sqliteRecords } from './sqlite-records.ts'
import { Sqlite } from './sqlite-engine.ts'

let folder = ''
const file = () => join(folder, 'sidecall.db')
const journal = () => `${file()}-wal`
/** Reading makes an empty journal where there was none, which says as little. */
const contents = (path: string) =>
  createHash('sha256')
    .update(existsSync(path) ? readFileSync(path) : '')
    .digest('hex')

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sidecall-store-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

function opened() {
  const result = openDatabase(folder)
  if (result.kind === 'failed') throw new Error(result.what)
  return result.database
}

function refusal(where = folder) {
  const result = openDatabase(where)
  if (result.kind === 'open') {
    result.database.close()
    throw new Error('It opened.')
  }
  return result
}

const BATCH = 7
const batches = (count: number) => {
  const stamp = counting()
  return Array.from({ length: count }, (_, batch) =>
    Array.from({ length: BATCH }, () => stamp(batch)({ type: 'problem-reported', lane: 'left', text: 'x'.repeat(900) }))
  )
}

/** What a killed server leaves: a file, and a journal with the batches of the second half. */
async function killedStore(): Promise<void> {
  const elsewhere = mkdtempSync(join(tmpdir(), 'sidecall-killed-'))
  const result = openDatabase(elsewhere)
  if (result.kind === 'failed') throw new Error(result.what)
  const records = sqliteRecords(result.database)
  for (const [index, events] of batches(8).entries()) {
    await records.addEvents(
      events.map((event) => ({ event, canonical: canonicalJson(event) })),
      0
    )
    if (index === 3) result.database.pragma('main.wal_checkpoint(TRUNCATE)')
  }
  copyFileSync(join(elsewhere, 'sidecall.db'), file())
  copyFileSync(join(elsewhere, 'sidecall.db-wal'), journal())
  await records.close()
  rmSync(elsewhere, { recursive: true })
}

describe('a new store', () => {
  test('is made with its folder, and survives a power cut by waiting for the disk', () => {
    const inside = join(folder, 'new', 'data')
    const result = openDatabase(inside)
    if (result.kind === 'failed') throw new Error(result.what)
    const { database } = result
    expect(database.pragma('journal_mode', { simple: true })).toBe('wal')
    // 2 is FULL: sqlite.org/pragma.html#pragma_synchronous
    expect(database.pragma('main.synchronous', { simple: true })).toBe(2)
    expect(database.pragma('user_version', { simple: true })).toBe(MIGRATIONS.length)
    database.close()
  })

  test('begins afresh over the empty file that a start cut short leaves', () => {
    writeFileSync(file(), '')
    expect(opened().close().open).toBe(false)
  })
})

describe('two servers on one folder', () => {
  test('the second is refused and told why; the first goes on', () => {
    const first = opened()
    expect(refusal().what).toContain('Another Sidecall is running')
    first.prepare("INSERT INTO facts (name, value) VALUES ('a', 'b')").run()
    first.close()
    opened().close()
  })

  test('a running store can be read by a program that makes a backup', async () => {
    const database = opened()
    database.prepare("INSERT INTO facts (name, value) VALUES ('a', 'b')").run()
    const reader = new Sqlite(file(), { readonly: true })
    await reader.backup(join(folder, 'backup.db'))
    reader.close()
    database.close()
    const backup = new Sqlite(join(folder, 'backup.db'))
    expect(backup.prepare('SELECT value FROM facts').pluck().all()).toEqual(['b'])
    backup.close()
  })
})

/** Nothing is forbidden to root; 65534 is the user that owns nothing. */
function withoutRights<T>(work: () => T): T {
  if (process.getuid?.() !== 0) return work()
  process.seteuid?.(65_534)
  try {
    return work()
  } finally {
    process.seteuid?.(0)
  }
}

describe('a folder that cannot be used', () => {
  test('nobody may write in it, empty or with a store in it', () => {
    chmodSync(folder, 0o555)
    expect(withoutRights(() => refusal()).what).toContain('cannot be used')
    chmodSync(folder, 0o755)
    opened().close()
    chmodSync(folder, 0o555)
    const { what, mend } = withoutRights(() => refusal())
    expect(what).toContain(file())
    expect(mend).toMatch(/permissions.*SIDECALL_DATA/)
    chmodSync(folder, 0o755)
  })

  test('its store may only be read', () => {
    opened().close()
    chmodSync(folder, 0o777)
    chmodSync(join(folder, 'in-use.lock'), 0o666)
    chmodSync(file(), 0o444)
    const { what, mend } = withoutRights(() => refusal())
    expect(what).toMatch(/sidecall\.db cannot be used: attempt to write a readonly/)
    expect(mend).toContain('permissions')
  })

  test('a file stands in its place', () => {
    writeFileSync(join(folder, 'data'), 'something of mine')
    const { what, mend } = refusal(join(folder, 'data'))
    expect(what).toContain('cannot be made')
    expect(mend).toContain('SIDECALL_DATA')
    expect(readFileSync(join(folder, 'data'), 'utf8')).toBe('something of mine')
  })

  test('a folder stands where the store should be', () => {
    mkdirSync(file())
    expect(refusal().what).toContain('cannot be used')
  })
})

describe('a damaged store is refused and left byte for byte as it is:', () => {
  function expectRefusedUntouched(what: RegExp): void {
    const before = [contents(file()), contents(journal())]
    const { what: said, mend } = refusal()
    expect(said).toMatch(what)
    expect(mend).toContain('left as it is')
    expect([contents(file()), contents(journal())]).toEqual(before)
  }

  test('bytes that mean nothing', () => {
    writeFileSync(file(), randomBytes(20_000))
    expectRefusedUntouched(/not a database/)
  })

  test('a header, then bytes that mean nothing', async () => {
    await killedStore()
    const bytes = readFileSync(file())
    randomBytes(bytes.length - 100).copy(bytes, 100)
    writeFileSync(file(), bytes)
    rmSync(journal())
    expectRefusedUntouched(/malformed|corrupt|Tree|page/i)
  })

  test('an empty file beside a journal that still holds events', async () => {
    await killedStore()
    writeFileSync(file(), '')
    expectRefusedUntouched(/it is empty, but its journal is not/)
  })

  test('no file beside a journal that still holds events', async () => {
    await killedStore()
    rmSync(file())
    expectRefusedUntouched(/it is empty, but its journal is not/)
  })

  test('cut short at every page, without and with its journal', async () => {
    await killedStore()
    const whole = readFileSync(file())
    const wholeJournal = readFileSync(journal())
    const pages = whole.length / 4096
    expect(pages).toBeGreaterThan(5)
    for (let kept = 1; kept < pages; kept += 1) {
      writeFileSync(file(), whole.subarray(0, kept * 4096))
      rmSync(journal(), { force: true })
      expectRefusedUntouched(/./)
      writeFileSync(file(), whole.subarray(0, kept * 4096 - 1000))
      expectRefusedUntouched(/./)
      writeFileSync(journal(), wholeJournal)
      const result = openDatabase(folder)
      // The journal holds newer copies of some pages; a file it makes whole again is no damaged file.
      if (result.kind === 'failed') continue
      expect(result.database.pragma('integrity_check', { simple: true })).toBe('ok')
      result.database.close()
    }
  })
})

describe('a journal cut short by a crash', () => {
  test('gives back whole batches up to some point, whatever is left of it', async () => {
    await killedStore()
    const whole = readFileSync(file())
    const wholeJournal = readFileSync(journal())
    const ids = batches(8).map((events) => events.map(({ id }) => id))
    const seen = new Set<number>()
    for (let kept = wholeJournal.length; kept >= 0; kept -= 2777) {
      writeFileSync(file(), whole)
      writeFileSync(journal(), wholeJournal.subarray(0, kept))
      const database = opened()
      expect(database.pragma('integrity_check', { simple: true })).toBe('ok')
      const found = database.prepare('SELECT id FROM events ORDER BY position').pluck().all()
      expect(found).toEqual(ids.slice(0, found.length / BATCH).flat())
      expect(found.length).toBeGreaterThanOrEqual(4 * BATCH)
      seen.add(found.length / BATCH)
      database.close()
    }
    expect([...seen].sort((a, b) => a - b)).toEqual([4, 5, 6, 7, 8])
  })

  test('of random bytes adds nothing', async () => {
    await killedStore()
    writeFileSync(journal(), randomBytes(30_000))
    const database = opened()
    expect(database.prepare('SELECT count(*) FROM events').pluck().get()).toBe(4 * BATCH)
    database.close()
  })
})
