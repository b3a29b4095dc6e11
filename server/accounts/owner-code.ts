/** The one-time code that makes an owner, or gives one a new password. Only whoever sees the server's console has it. */
import { LONGEST_CODE_MS, type Accounts } from './accounts.ts'
import { newCode } from './tokens.ts'

/** A shop that has no owner gets another one at each start, and the one before is none any more. */
const FIRST_MS = LONGEST_CODE_MS
const LATER_MS = 3600_000

/** For a shop without an owner; null where there is one. `now`: trusted epoch ms. */
export async function firstOwnerCode(accounts: Accounts, now: number): Promise<string | null> {
  if (await accounts.hasOwner()) return null
  await accounts.dropCodes('owner', null)
  return codeUntil(accounts, now + FIRST_MS)
}

/** For an owner who lost the password; good for an hour, and the ones before it are none any more. */
export async function laterOwnerCode(accounts: Accounts, now: number): Promise<string> {
  await accounts.dropCodes('owner', null)
  return codeUntil(accounts, now + LATER_MS)
}

async function codeUntil(accounts: Accounts, expiresAt: number): Promise<string> {
  const code = newCode()
  await accounts.addCode({ token: accounts.secrets.ofToken(code), kind: 'owner', person: null, expiresAt })
  return code
}
