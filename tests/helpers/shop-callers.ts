/** A shop with an owner, and one browser of everybody who may come to its server. */
import type { Accounts } from '../../server/accounts/accounts.ts'
import { anApp, NOW, type AnApp } from './an-app.ts'
import type { Ask } from './cookie-jar.ts'
import { OWNER, sending } from './shop-people.ts'

export const CALLERS = [
  'nobody',
  'removed device',
  'device',
  'operator',
  'supervisor',
  'elevated',
  'owner',
  'elevated owner',
  'signed out',
  'idle too long',
  'signed in too long',
  'supervisor who left',
  'inspector',
  'inspector of a machine',
  'inspector whose link ended',
  'inspector whose link is over',
  'calendar'
] as const
export type CallerName = (typeof CALLERS)[number]

export const SUPERVISOR = { name: 'Sam Supervisor', password: 'blue kettle noise' }
const MINUTE = 60_000
const DAY = 24 * 60 * MINUTE

export interface Shop extends AnApp {
  readonly accounts: Accounts
  /** The browser of the caller asked for. */
  readonly as: Ask
  /** The owner's, with a password given just now. */
  readonly boss: Ask
  readonly pass: (ms: number) => void
}

async function json<T>(answer: Response | Promise<Response>): Promise<T> {
  const got = await answer
  if (!got.ok) throw new Error(`${got.status} ${await got.text()}`)
  return (await got.json()) as T
}

export async function aShopOf(name: CallerName): Promise<Shop> {
  let now = NOW
  const shop = anApp({ now: () => now })
  const boss = await shop.owner()
  const as = shop.browser()
  const pass = (ms: number) => void (now += ms)
  const elevate = () => json(boss('/api/session/elevation', sending('POST', { password: OWNER.password })))

  async function paired(): Promise<string> {
    const { code } = await json<{ code: string }>(boss('/api/pairing-codes', sending('POST')))
    const me = await json<{ device: { id: string } }>(as('/api/devices', sending('POST', { code, name: 'Tablet' })))
    return me.device.id
  }

  async function supervisor(): Promise<string> {
    const { person } = await json<{ person: { id: string } }>(
      boss('/api/people', sending('POST', { name: SUPERVISOR.name, role: 'supervisor' }))
    )
    const { code } = await json<{ code: string }>(boss(`/api/people/${person.id}/password-code`, sending('POST')))
    await json(as('/api/password', sending('POST', { code, password: SUPERVISOR.password })))
    return person.id
  }

  async function link(kind: 'inspector' | 'calendar', machine: string | null): Promise<string> {
    const made = await json<{ link: { id: string }; token: string }>(
      boss('/api/links', sending('POST', { kind, machine, note: 'Visit', days: 3 }))
    )
    if (kind === 'inspector') await json(as('/api/links/open', sending('POST', { token: made.token })))
    return made.link.id
  }

  switch (name) {
    case 'nobody':
      break
    case 'device':
      await paired()
      break
    case 'removed device': {
      const id = await paired()
      await json(boss(`/api/devices/${id}`, { method: 'DELETE' }))
      break
    }
    case 'operator': {
      await paired()
      const { person } = await json<{ person: { id: string } }>(
        boss('/api/people', sending('POST', { name: 'Oz Operator', role: 'operator' }))
      )
      await json(boss(`/api/people/${person.id}/pin`, sending('PUT', { pin: '4711' })))
      await json(as(`/api/names/${person.id}/check`, sending('POST', { pin: '4711' })))
      break
    }
    case 'elevated':
      await supervisor()
      break
    case 'supervisor':
      await supervisor()
      pass(6 * MINUTE)
      break
    case 'elevated owner':
      await json(as('/api/session', sending('POST', OWNER)))
      break
    case 'owner':
      await json(as('/api/session', sending('POST', OWNER)))
      pass(6 * MINUTE)
      break
    case 'signed out':
      await supervisor()
      await json(as('/api/session', { method: 'DELETE' }))
      break
    case 'idle too long':
      await supervisor()
      pass(31 * MINUTE)
      break
    case 'signed in too long':
      await supervisor()
      for (let spent = 0; spent < 12 * 60; spent += 20) {
        pass(20 * MINUTE)
        await as('/api/me')
      }
      pass(MINUTE)
      break
    case 'supervisor who left': {
      const id = await supervisor()
      await json(boss(`/api/people/${id}`, sending('PATCH', { isActive: false })))
      break
    }
    case 'inspector':
      await link('inspector', null)
      break
    case 'inspector of a machine':
      await link('inspector', 'Freezer 1')
      break
    case 'inspector whose link ended':
      await link('inspector', null)
      pass(3 * DAY)
      break
    case 'inspector whose link is over': {
      const id = await link('inspector', null)
      await json(boss(`/api/links/${id}`, { method: 'DELETE' }))
      break
    }
    case 'calendar':
      await link('calendar', null)
      break
  }
  if (now - NOW < 30 * MINUTE) await elevate()
  return { ...shop, as, boss, pass }
}
