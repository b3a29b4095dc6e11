/** Whether somebody may use what asks for a right, or why not, in words that say what to do. */
import type { Right } from '../routes/rights.ts'
import type { Caller } from './caller.ts'

export type Judged =
  | { readonly kind: 'may' }
  | { readonly kind: 'may-not'; readonly status: 401 | 403; readonly title: string; readonly detail: string }

const MAY: Judged = { kind: 'may' }
const NO_OWNER = mayNot(
  403,
  'This shop has no owner yet',
  'Open "People and devices" on the first screen, and enter the one-time code that the server shows on its console.'
)
const UNPAIRED = mayNot(
  401,
  'This device is not paired',
  'Open "People and devices" on the first screen: enter a pairing code from a supervisor, or sign in. Nothing on this device is lost.'
)
const SIGN_IN = mayNot(
  401,
  'Sign in first',
  'This is for supervisors and owners: open "People and devices" and sign in.'
)
const ELEVATE = mayNot(403, 'Give your password again', 'It is asked for again before anything that has authority.')
const OWNER_ONLY = mayNot(403, 'Only an owner may do this', 'Ask an owner of this shop.')
const ONLY_READS = mayNot(403, 'This link only reads records', 'Ask whoever gave you the link for what else you need.')

/** `now` in trusted epoch ms. */
export function mayUse(right: Right, caller: Caller, now: number): Judged {
  const { shop, session, link } = caller
  switch (right) {
    case 'anyone':
      return MAY
    case 'run':
      return shop === 'unowned' || isOfShop(caller) ? MAY : link ? ONLY_READS : UNPAIRED
    case 'records':
      return shop === 'unowned' || isOfShop(caller) || link?.kind === 'inspector' ? MAY : link ? ONLY_READS : UNPAIRED
    case 'calendar':
      return shop === 'unowned' || isOfShop(caller) || link?.kind === 'calendar' ? MAY : link ? ONLY_READS : UNPAIRED
    case 'author':
      return shop === 'unowned' || session ? MAY : SIGN_IN
    case 'supervisor':
      return shop === 'unowned' ? NO_OWNER : session ? MAY : SIGN_IN
    case 'elevated':
      if (shop === 'unowned') return NO_OWNER
      return session ? (now < session.elevatedUntil ? MAY : ELEVATE) : SIGN_IN
    case 'owner':
      if (shop === 'unowned') return NO_OWNER
      return session ? (session.person.role === 'owner' ? MAY : OWNER_ONLY) : SIGN_IN
  }
}

function isOfShop({ device, session }: Caller): boolean {
  return device !== null || session !== null
}

function mayNot(status: 401 | 403, title: string, detail: string): Judged {
  return { kind: 'may-not', status, title, detail }
}
