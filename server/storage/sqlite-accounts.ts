/** Accounts in SQLite: all the SQL about people, devices, sessions, links, and what they did. */
import type { Role } from '../../src/core/record/account-kinds.ts'
import {
  LONGEST_CODE_MS,
  type Accounts,
  type Code,
  type CodeKind,
  type Deed,
  type Device,
  type Link,
  type NameCheck,
  type Session,
  type Tried
} from '../accounts/accounts.ts'
import { nameKey, type Person } from '../accounts/person.ts'
import type { Secrets } from '../accounts/secrets.ts'
import { Sqlite, type SqliteConnection } from './sqlite-engine.ts'

interface PersonRow {
  readonly id: string
  readonly name: string
  readonly role: Role
  readonly isActive: number
  readonly hasSecret: number
}

const PERSON = 'id, name, role, ended_at IS NULL AS isActive, secret IS NOT NULL AS hasSecret'
const DEVICE = 'id, name, paired_at AS pairedAt, seen_at AS seenAt'
const LINK = 'id, kind, note, machine, made_by AS madeBy, made_at AS madeAt, expires_at AS expiresAt'
const SESSION = 'token, person, begun_at AS begunAt, seen_at AS seenAt, elevated_until AS elevatedUntil'

/** Longer than anything is held against somebody. */
const TRIED_KEPT_MS = 48 * 3600_000

export function sqliteAccounts(database: SqliteConnection, secrets: Secrets): Accounts {
  const owners = database.prepare("SELECT 1 FROM people WHERE role = 'owner' AND ended_at IS NULL LIMIT 1")
  const people = database.prepare<[], PersonRow>(`SELECT ${PERSON} FROM people ORDER BY name_key`)
  const personById = database.prepare<[string], PersonRow>(`SELECT ${PERSON} FROM people WHERE id = ?`)
  const personByKey = database.prepare<[string], PersonRow>(`SELECT ${PERSON} FROM people WHERE name_key = ?`)
  const insertPerson = database.prepare(
    'INSERT INTO people (id, name, name_key, role, added_at) VALUES (?, ?, ?, ?, ?) ON CONFLICT (name_key) DO NOTHING'
  )
  const updatePerson = database.prepare(
    'UPDATE people SET name = ?, name_key = ?, role = ?, ended_at = CASE WHEN ? THEN NULL ELSE coalesce(ended_at, ?) END WHERE id = ?'
  )
  const secretOf = database.prepare<[string], { secret: string | null }>('SELECT secret FROM people WHERE id = ?')
  const setSecret = database.prepare('UPDATE people SET secret = ? WHERE id = ?')

  const insertSession = database.prepare(
    'INSERT INTO sessions (token, person, begun_at, seen_at, elevated_until) VALUES (?, ?, ?, ?, ?)'
  )
  const session = database.prepare<[string], Omit<Session, 'person'> & { readonly person: string }>(
    `SELECT ${SESSION} FROM sessions WHERE token = ?`
  )
  const touchSession = database.prepare('UPDATE sessions SET seen_at = ? WHERE token = ?')
  const endSession = database.prepare('DELETE FROM sessions WHERE token = ?')
  const endSessionsOf = database.prepare('DELETE FROM sessions WHERE person = ?')

  const insertDevice = database.prepare(
    'INSERT INTO devices (id, token, name, paired_at, seen_at) VALUES (?, ?, ?, ?, ?)'
  )
  const device = database.prepare<[string], Device>(
    `SELECT ${DEVICE} FROM devices WHERE token = ? AND ended_at IS NULL`
  )
  const deviceById = database.prepare<[string], Device>(
    `SELECT ${DEVICE} FROM devices WHERE id = ? AND ended_at IS NULL`
  )
  const touchDevice = database.prepare('UPDATE devices SET seen_at = ? WHERE id = ?')
  const devices = database.prepare<[], Device>(
    `SELECT ${DEVICE} FROM devices WHERE ended_at IS NULL ORDER BY paired_at`
  )
  const endDevice = database.prepare('UPDATE devices SET ended_at = ? WHERE id = ? AND ended_at IS NULL')

  const insertLink = database.prepare(
    'INSERT INTO links (id, token, kind, note, machine, made_by, made_at, expires_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?)'
  )
  const link = database.prepare<[string], Link>(`SELECT ${LINK} FROM links WHERE token = ? AND ended_at IS NULL`)
  const linkById = database.prepare<[string], Link>(`SELECT ${LINK} FROM links WHERE id = ? AND ended_at IS NULL`)
  const links = database.prepare<[], Link>(`SELECT ${LINK} FROM links WHERE ended_at IS NULL ORDER BY made_at DESC`)
  const endLink = database.prepare('UPDATE links SET ended_at = ? WHERE id = ? AND ended_at IS NULL')

  const insertCode = database.prepare('INSERT INTO codes (token, kind, person, expires_at) VALUES (?, ?, ?, ?)')
  const dropOldCodes = database.prepare('DELETE FROM codes WHERE expires_at <= ?')
  const dropCodes = database.prepare<[CodeKind, string | null]>('DELETE FROM codes WHERE kind = ? AND person IS ?')
  const code = database.prepare<[string, number], Code>(
    'SELECT kind, person, expires_at AS expiresAt FROM codes WHERE token = ? AND expires_at <= ?'
  )
  const useCode = database.prepare('DELETE FROM codes WHERE token = ?')

  const insertCheck = database.prepare(
    'INSERT INTO name_checks (id, person, name, at, given_to) VALUES (?, ?, ?, ?, ?)'
  )
  const check = database.prepare<[string], NameCheck>(
    'SELECT id, person, name, at, given_to AS givenTo FROM name_checks WHERE id = ?'
  )

  const tried = database.prepare<[string], Tried>(
    'SELECT failures, last_at AS lastAt, blocked_until AS blockedUntil FROM attempts WHERE subject = ?'
  )
  const putTried = database.prepare(
    'INSERT OR REPLACE INTO attempts (subject, failures, last_at, blocked_until) VALUES (?, ?, ?, ?)'
  )
  const dropTried = database.prepare('DELETE FROM attempts WHERE last_at < ?')
  const forgetTried = database.prepare('DELETE FROM attempts WHERE subject = ?')

  const insertDeed = database.prepare('INSERT INTO deeds (at, by, device, what, about) VALUES (?, ?, ?, ?, ?)')
  const deeds = database.prepare<[number, number, number], Deed & { readonly id: number }>(
    'SELECT id, at, by, device, what, about FROM deeds WHERE ? = 0 OR id < ? ORDER BY id DESC LIMIT ?'
  )

  const change = database.transaction(
    ({ id, name, role, isActive }: Parameters<Accounts['changePerson']>[0], at: number) => {
      const before = personById.get(id)
      updatePerson.run(name, nameKey(name), role, isActive ? 1 : 0, at, id)
      if (!isActive || role === 'operator') endSessionsOf.run(id)
      if (before?.role !== role || before.isActive !== Number(isActive)) dropCodes.run('password', id)
    }
  )

  const changeTried = database.transaction((...[keys, change]: Parameters<Accounts['changeTried']>) => {
    const known = keys.map((key) => tried.get(key) ?? null)
    for (const [index, next] of (change(known) ?? []).entries()) {
      const key = keys[index] ?? ''
      if (next === null) forgetTried.run(key)
      else {
        dropTried.run(next.lastAt - TRIED_KEPT_MS)
        putTried.run(key, next.failures, next.lastAt, next.blockedUntil)
      }
    }
    return known
  })

  return {
    secrets,
    hasOwner: async () => owners.get() !== undefined,
    people: async () => people.all().map(personOf),
    person: async (id) => found(personById.get(id)),
    personNamed: async (name) => found(personByKey.get(nameKey(name))),
    addPerson: async ({ id, name, role }, at) => insertPerson.run(id, name, nameKey(name), role, at).changes === 1,
    async changePerson(person, at) {
      try {
        change.immediate(person, at)
        return true
      } catch (error) {
        if (error instanceof Sqlite.SqliteError && error.code === 'SQLITE_CONSTRAINT_UNIQUE') return false
        throw error
      }
    },
    secretOf: async (id) => secretOf.get(id)?.secret ?? null,
    setSecret: async (id, kept) => void setSecret.run(kept, id),

    startSession: async ({ token, person, begunAt, seenAt, elevatedUntil }) =>
      void insertSession.run(token, person, begunAt, seenAt, elevatedUntil),
    async session(token) {
      const row = session.get(token)
      const person = row && personById.get(row.person)
      return person ? { ...row, person: personOf(person) } : null
    },
    touchSession: async (token, seenAt) => void touchSession.run(seenAt, token),
    endSession: async (token) => void endSession.run(token),
    endSessionsOf: async (person) => void endSessionsOf.run(person),

    addDevice: async ({ id, token, name, pairedAt, seenAt }) =>
      void insertDevice.run(id, token, name, pairedAt, seenAt),
    device: async (token) => device.get(token) ?? null,
    touchDevice: async (id, seenAt) => void touchDevice.run(seenAt, id),
    devices: async () => devices.all(),
    async endDevice(id, at) {
      const ended = deviceById.get(id) ?? null
      endDevice.run(at, id)
      return ended
    },

    addLink: async ({ id, token, kind, note, machine, madeBy, madeAt, expiresAt }) =>
      void insertLink.run(id, token, kind, note, machine, madeBy, madeAt, expiresAt),
    link: async (token) => link.get(token) ?? null,
    links: async () => links.all(),
    async endLink(id, at) {
      const ended = linkById.get(id) ?? null
      endLink.run(at, id)
      return ended
    },

    addCode: async ({ token, kind, person, expiresAt }) => void insertCode.run(token, kind, person, expiresAt),
    async code(token, now) {
      dropOldCodes.run(now)
      return code.get(token, now + LONGEST_CODE_MS) ?? null
    },
    useCode: async (token) => useCode.run(token).changes === 1,
    dropCodes: async (kind, person) => void dropCodes.run(kind, person),

    addCheck: async ({ id, person, name, at, givenTo }) => void insertCheck.run(id, person, name, at, givenTo),
    check: async (id) => check.get(id) ?? null,

    changeTried: async (keys, change) => changeTried.immediate(keys, change),

    note: async ({ at, by, device, what, about }) => void insertDeed.run(at, by, device, what, about),
    deeds: async (before, most) => deeds.all(before, before, most)
  }
}

function personOf(row: PersonRow): Person {
  return { ...row, isActive: row.isActive === 1, hasSecret: row.hasSecret === 1 }
}

function found(row: PersonRow | undefined): Person | null {
  return row ? personOf(row) : null
}
