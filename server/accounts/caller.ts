/** Who is asking, as far as the request's cookies tell. */
import type { Context } from 'hono'
import type { Accounts, Device, Link, Session } from './accounts.ts'
import { addressOf, tokenIn } from './cookies.ts'
import { hasAuthority } from './person.ts'
import type { Source } from './throttle.ts'

export interface Caller {
  /** Before there is an owner, runs are open to everybody who reaches the server, and nothing has authority. */
  readonly shop: 'unowned' | 'owned'
  readonly device: Device | null
  /** Of somebody who signed in with a password, and has not been away for too long. */
  readonly session: Session | null
  readonly link: Link | null
}

declare module 'hono' {
  interface ContextVariableMap {
    readonly caller: Caller
    /** Asked again of whatever stays open: devices are removed and people signed out meanwhile. */
    readonly mayStill: () => Promise<boolean>
  }
}

const MINUTE = 60_000
/** A tablet that a supervisor walked away from. Common practice (OWASP Session Management Cheat Sheet: 15 to 30 minutes). */
const IDLE_MS = 30 * MINUTE
/** A working day. */
export const LONGEST_MS = 12 * 60 * MINUTE
/** How long a password just given stands for authority. */
export const ELEVATED_MS = 5 * MINUTE
const SEEN_EVERY_MS = MINUTE
const DEVICE_SEEN_EVERY_MS = 60 * MINUTE

export async function callerOf(context: Context, accounts: Accounts, now: number): Promise<Caller> {
  return {
    shop: (await accounts.hasOwner()) ? 'owned' : 'unowned',
    device: await deviceOf(context, accounts, now),
    session: await sessionOf(context, accounts, now),
    link: await linkOf(context, accounts, now)
  }
}

async function deviceOf(context: Context, accounts: Accounts, now: number): Promise<Device | null> {
  const token = tokenIn(context, 'device')
  const device = token === null ? null : await accounts.device(accounts.secrets.ofToken(token))
  if (device && now - device.seenAt > DEVICE_SEEN_EVERY_MS) await accounts.touchDevice(device.id, now)
  return device
}

async function sessionOf(context: Context, accounts: Accounts, now: number): Promise<Session | null> {
  const token = tokenIn(context, 'session')
  const session = token === null ? null : await accounts.session(accounts.secrets.ofToken(token))
  if (!session) return null
  const { person, begunAt, seenAt } = session
  if (!person.isActive || !hasAuthority(person) || now - begunAt > LONGEST_MS || now - seenAt > IDLE_MS) {
    await accounts.endSession(session.token)
    return null
  }
  // A page left open asks by itself, and must not keep anybody signed in: only what people do counts.
  if (isDone(context) && now - seenAt > SEEN_EVERY_MS) await accounts.touchSession(session.token, now)
  return session
}

/**
 * What a page asks with nobody there: its timers and its stream, lists and clips when other procedures are offered, and
 * all that the first screen shows when a newer page takes its place.
 */
const BY_ITSELF = /^\/api\/(live|time|events|health|due|procedures(\/[^/]+)?|runs(\/[^/]+\/events)?|speech\/.+)$/

function isDone(context: Context): boolean {
  return !BY_ITSELF.test(context.req.path)
}

async function linkOf(context: Context, accounts: Accounts, now: number): Promise<Link | null> {
  // A calendar program keeps no cookies.
  const key = context.req.path === '/api/due.ics' ? context.req.query('key') : undefined
  const token = key ?? tokenIn(context, 'link')
  const link = token ? await accounts.link(accounts.secrets.ofToken(token)) : null
  return link && link.expiresAt > now ? link : null
}

export function sourceOf(context: Context): Source {
  const { device } = context.get('caller')
  return device
    ? { key: `device ${device.id}`, isPaired: true }
    : { key: `address ${addressOf(context)}`, isPaired: false }
}

/** Of the paired device and of the person signed in, as far as there are: what was given to one of them is the caller's. */
export function callerIds(context: Context): readonly string[] {
  const { device, session } = context.get('caller')
  return [device?.id, session?.person.id].flatMap((id) => id ?? [])
}

/** For the log of what was done. */
export function doer(context: Context): { readonly by: string; readonly device: string } {
  const { session, device } = context.get('caller')
  return { by: session?.person.name ?? '', device: device?.name ?? '' }
}
