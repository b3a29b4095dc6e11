/** People of a shop, made the way a shop makes them: by codes, over the server's own routes. */
import type { Accounts } from '../../server/accounts/accounts.ts'
import { laterOwnerCode } from '../../server/accounts/owner-code.ts'
import type { Ask } from './cookie-jar.ts'

export const OWNER = { name: 'Olive Owner', password: 'three grey pans' }

/** Sends JSON to the server's app. */
export function sending(method: string, body?: unknown): RequestInit {
  return body === undefined
    ? { method }
    : { method, headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }
}

/** The browser that asks is signed in as owner afterwards, just now, and paired. */
export async function becomeOwner(accounts: Accounts, ask: Ask, now: number, base = ''): Promise<void> {
  const code = await laterOwnerCode(accounts, now)
  const answer = await ask(`${base}/api/password`, sending('POST', { code, ...OWNER }))
  if (!answer.ok) throw new Error(`No owner was made: ${await answer.text()}`)
}
