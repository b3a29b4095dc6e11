/** Beginning and ending the time in which somebody is signed in, or a browser belongs to the shop. */
import type { Context } from 'hono'
import type { Accounts, Device } from './accounts.ts'
import { ELEVATED_MS, LONGEST_MS } from './caller.ts'
import { giveToken, takeToken, tokenIn } from './cookies.ts'
import { newToken } from './tokens.ts'

const DEVICE_S = 400 * 24 * 3600

/**
 * With a new token each time somebody gives a password: one that was put into the browser beforehand is worth nothing
 * (session fixation). `begunAt` is kept when the same person gives the password again.
 */
export async function startSession(
  context: Context,
  accounts: Accounts,
  { person, now, begunAt = now }: { readonly person: string; readonly now: number; readonly begunAt?: number }
): Promise<void> {
  await forget(context, accounts)
  const token = newToken()
  await accounts.startSession({
    token: accounts.secrets.ofToken(token),
    person,
    begunAt,
    seenAt: now,
    elevatedUntil: now + ELEVATED_MS
  })
  giveToken(context, 'session', token, LONGEST_MS / 1000)
}

export async function endSession(context: Context, accounts: Accounts): Promise<void> {
  await forget(context, accounts)
  takeToken(context, 'session')
}

async function forget(context: Context, accounts: Accounts): Promise<void> {
  const token = tokenIn(context, 'session')
  if (token !== null) await accounts.endSession(accounts.secrets.ofToken(token))
}

/** From now on this browser belongs to the shop. One that did already gets the new name. */
export async function pairDevice(
  context: Context,
  accounts: Accounts,
  { id, name, now }: { readonly id: string; readonly name: string; readonly now: number }
): Promise<Device> {
  const before = context.get('caller').device
  if (before) await accounts.endDevice(before.id, now)
  const token = newToken()
  const device = { id, name, pairedAt: now, seenAt: now }
  await accounts.addDevice({ ...device, token: accounts.secrets.ofToken(token) })
  giveToken(context, 'device', token, DEVICE_S)
  return device
}
