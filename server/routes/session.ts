/** Signing in and out, giving the password again, setting it. */
import { Hono, type Context } from 'hono'
import * as v from 'valibot'
import type { Accounts, DeedKind } from '../accounts/accounts.ts'
import { doer, ELEVATED_MS, sourceOf } from '../accounts/caller.ts'
import { hasAuthority, nameKey, type Person } from '../accounts/person.ts'
import { whyNoPassword } from '../accounts/secret-rules.ts'
import { endSession, pairDevice, startSession } from '../accounts/sessions.ts'
import { attempt } from '../accounts/throttle.ts'
import { typedCode } from '../accounts/tokens.ts'
import { problem } from '../problem.ts'
import { jsonOnly } from '../security.ts'
import { code, faulty, personName, secret, slowDown, tooBusy } from './account-body.ts'
import { bodyOf, smallBody } from './json-body.ts'
import { whoAsks } from './who.ts'

export interface AccountRoutes {
  readonly accounts: Accounts
  readonly newId: () => string
  readonly now: () => number
}

const signIn = v.strictObject({ name: v.pipe(v.string(), v.maxLength(200)), password: secret })
const again = v.strictObject({ password: secret })
const change = v.strictObject({ password: secret, next: secret })
/** A code of the console makes or names an owner; one for a person sets the password of that one, whatever the name. */
const byCode = v.strictObject({ code, name: v.optional(personName, 'Owner'), password: secret })

/** What each route takes, by its line in the table of rights. */
export const SESSION_BODIES = {
  'POST /api/session': signIn,
  'POST /api/session/elevation': again,
  'PUT /api/me/password': change,
  'POST /api/password': byCode
}

const FIRST_DEVICE = 'First device'

export function sessionRoutes({ accounts, newId, now }: AccountRoutes): Hono {
  const routes = new Hono()
  const noted = (context: Context, what: DeedKind, about = '', by = doer(context).by) =>
    accounts.note({ at: now(), by, device: doer(context).device, what, about })

  routes.get('/me', (context) => context.json(whoAsks(context, now())))

  routes.post('/session', jsonOnly(), smallBody, async (context) => {
    const body = await bodyOf(context, signIn)
    if (!body) return faulty(context, 'Give a name and a password.')
    const named = await accounts.personNamed(body.name)
    const person = named?.isActive && hasAuthority(named) ? named : null
    const refused = await checkPassword(context, person, body.password, body.name)
    if (refused) return refused
    if (!person) return wrongPassword(context)
    await noted(context, 'signed-in', '', person.name)
    return started(context, person)
  })

  routes.delete('/session', async (context) => {
    if (context.get('caller').session) await noted(context, 'signed-out')
    await endSession(context, accounts)
    return context.json(whoAsks(context, now(), { session: null }))
  })

  routes.post('/session/elevation', jsonOnly(), smallBody, async (context) => {
    const body = await bodyOf(context, again)
    const { session } = context.get('caller')
    if (!body || !session) return faulty(context, 'Give your password.')
    const refused = await checkPassword(context, session.person, body.password)
    if (refused) return refused
    await noted(context, 'password-given-again')
    return started(context, session.person, session.begunAt)
  })

  routes.put('/me/password', jsonOnly(), smallBody, async (context) => {
    const body = await bodyOf(context, change)
    const { session } = context.get('caller')
    if (!body || !session) return faulty(context, 'Give your password, and the next one.')
    const refused = await checkPassword(context, session.person, body.password)
    if (refused) return refused
    const why = whyNoPassword(body.next, session.person.name)
    if (why !== null) return faulty(context, why)
    const kept = await accounts.secrets.keep(body.next)
    return kept === null ? tooBusy(context) : setPassword(context, session.person, kept)
  })

  routes.delete('/me/sessions', async (context) => {
    const { session } = context.get('caller')
    if (session) await accounts.endSessionsOf(session.person.id)
    await noted(context, 'signed-out-everywhere')
    await endSession(context, accounts)
    return context.json(whoAsks(context, now(), { session: null }))
  })

  routes.post('/password', jsonOnly(), smallBody, async (context) => {
    const body = await bodyOf(context, byCode)
    if (!body) return faulty(context, 'Give a code, a name and a password.')
    const trying = await attempt(accounts, now(), { token: 'codes' }, sourceOf(context))
    if (trying.waitMs > 0) return slowDown(context, trying.waitMs)
    const token = accounts.secrets.ofToken(typedCode(body.code))
    const known = await accounts.code(token, now())
    if (!known || known.kind === 'pairing')
      return faulty(context, 'This code is not known, was used, or is too old. Get a new one.')
    await trying.forgive()
    const whose = known.kind === 'owner' ? null : await accounts.person(known.person ?? '')
    if (known.kind === 'password' && !(whose?.isActive && hasAuthority(whose))) return needsNone(context)
    const name = whose?.name ?? body.name
    const why = whyNoPassword(body.password, name)
    if (why !== null) return faulty(context, why)
    // All that may fail comes before the code is gone: whoever was told to try again has to be able to.
    const kept = await accounts.secrets.keep(body.password)
    if (kept === null) return tooBusy(context)
    if (!(await accounts.useCode(token))) return faulty(context, 'This code was just used.')
    const wasOwned = await accounts.hasOwner()
    const person = whose ?? (await ownerNamed(name))
    if (!person) return needsNone(context)
    if (known.kind === 'owner') {
      await accounts.dropCodes('owner', null)
      await noted(context, wasOwned ? 'owner-code-used' : 'owner-made', person.name, person.name)
    }
    // The browser at which the shop is taken over is the one in the kitchen, or at least the owner's own.
    const device = wasOwned
      ? null
      : await pairDevice(context, accounts, { id: newId(), name: FIRST_DEVICE, now: now() })
    return setPassword(context, person, kept, device)
  })

  async function ownerNamed(name: string): Promise<Person | null> {
    const known = await accounts.personNamed(name)
    if (known) await accounts.changePerson({ ...known, role: 'owner', isActive: true }, now())
    else await accounts.addPerson({ id: newId(), name, role: 'owner' }, now())
    return accounts.personNamed(name)
  }

  /** Null when it is right. */
  async function checkPassword(context: Context, person: Person | null, password: string, typed = '') {
    // A name that nobody has is slowed down like any other, so that it shows no difference.
    const guessed = { person: person?.id ?? accounts.secrets.ofToken(`name ${nameKey(typed)}`) }
    const trying = await attempt(accounts, now(), guessed, sourceOf(context))
    if (trying.waitMs > 0) return slowDown(context, trying.waitMs)
    const matched = await accounts.secrets.matches(password, person && (await accounts.secretOf(person.id)))
    if (matched === 'busy') {
      await trying.takeBack()
      return tooBusy(context)
    }
    if (matched === 'yes') {
      await trying.forgive()
      return null
    }
    // What was typed as a name may be a password that slipped: only names we have are written down.
    await noted(context, 'sign-in-refused', person?.name ?? '')
    return wrongPassword(context)
  }

  /** `kept`: the hash of the next one. */
  async function setPassword(context: Context, person: Person, kept: string, device = context.get('caller').device) {
    await accounts.setSecret(person.id, kept)
    // Whoever knew the old one is out, and so is whoever holds another code for it.
    await accounts.dropCodes('password', person.id)
    await accounts.endSessionsOf(person.id)
    await noted(context, 'password-set', person.name, person.name)
    return started(context, person, now(), device)
  }

  async function started(context: Context, person: Person, begunAt = now(), device = context.get('caller').device) {
    await startSession(context, accounts, { person: person.id, now: now(), begunAt })
    const session = { token: '', person, begunAt, seenAt: now(), elevatedUntil: now() + ELEVATED_MS }
    const shop = (await accounts.hasOwner()) ? 'owned' : 'unowned'
    return context.json(whoAsks(context, now(), { shop, session, device }))
  }
  return routes
}

function needsNone(context: Context): Response {
  return faulty(context, 'Whoever this code was for has left, or needs no password any more.')
}

/** The same words whether the name or the password was wrong. */
function wrongPassword(context: Context): Response {
  return problem(context, 403, 'Not signed in', 'Name and password do not fit together.')
}
