/** The people of the shop: supervisors look after operators, owners after everybody. */
import { Hono, type Context } from 'hono'
import * as v from 'valibot'
import type { DeedKind } from '../accounts/accounts.ts'
import { doer } from '../accounts/caller.ts'
import { ROLES, type Role } from '../../src/core/record/account-kinds.ts'
import { hasAuthority, type Person } from '../accounts/person.ts'
import { whyNoPin } from '../accounts/secret-rules.ts'
import { newCode } from '../accounts/tokens.ts'
import { notFound, problem } from '../problem.ts'
import { jsonOnly } from '../security.ts'
import { faulty, personName, secret, tooBusy } from './account-body.ts'
import { bodyOf, smallBody } from './json-body.ts'
import type { AccountRoutes } from './session.ts'

/** Long enough to be told in person at the next shift. */
const CODE_MS = 3 * 24 * 3600_000

const anyRole = v.picklist(ROLES)
const added = v.strictObject({ name: personName, role: anyRole })
const changed = v.strictObject({
  name: v.optional(personName),
  role: v.optional(anyRole),
  isActive: v.optional(v.boolean())
})
const pin = v.strictObject({ pin: secret })

export const PEOPLE_BODIES = {
  'POST /api/people': added,
  'PATCH /api/people/:id': changed,
  'PUT /api/people/:id/pin': pin
}

export function peopleRoutes({ accounts, newId, now }: AccountRoutes): Hono {
  const routes = new Hono()
  const noted = (context: Context, what: DeedKind, about: string) =>
    accounts.note({ at: now(), ...doer(context), what, about })

  routes.get('/people', async (context) => context.json({ people: await accounts.people() }))

  routes.post('/people', jsonOnly(), smallBody, async (context) => {
    const body = await bodyOf(context, added)
    if (!body) return faulty(context, 'Give a name of at most 60 characters, and a role.')
    if (!mayManage(context, body.role)) return ownersOnly(context)
    const id = newId()
    if (!(await accounts.addPerson({ id, ...body }, now()))) return nameTaken(context)
    await noted(context, 'person-added', `${body.name} (${body.role})`)
    return context.json({ person: await accounts.person(id) })
  })

  routes.patch('/people/:id', jsonOnly(), smallBody, async (context) => {
    const person = await accounts.person(context.req.param('id'))
    if (!person) return notFound(context)
    const body = await bodyOf(context, changed)
    if (!body) return faulty(context, 'Give a name, a role, or whether the person is here.')
    const { name = person.name, role = person.role, isActive = person.isActive } = body
    const next = { ...person, name, role, isActive }
    if (!mayManage(context, person.role) || !mayManage(context, next.role)) return ownersOnly(context)
    const stays = next.role === 'owner' && next.isActive
    if (person.role === 'owner' && person.isActive && !stays && (await isLastOwner(person)))
      return problem(context, 409, 'The last owner', 'Make somebody else an owner first.')
    if (!(await accounts.changePerson(next, now()))) return nameTaken(context)
    // A PIN is no password, and a password no PIN.
    if (hasAuthority(person) !== hasAuthority(next)) await accounts.setSecret(person.id, null)
    const what = person.isActive === next.isActive ? 'person-changed' : next.isActive ? 'person-back' : 'person-left'
    await noted(
      context,
      what,
      person.name === next.name ? `${next.name} (${next.role})` : `${person.name}: ${next.name} (${next.role})`
    )
    return context.json({ person: await accounts.person(person.id) })
  })

  routes.put('/people/:id/pin', jsonOnly(), smallBody, async (context) => {
    const person = await accounts.person(context.req.param('id'))
    if (!person || hasAuthority(person)) return notFound(context)
    const body = await bodyOf(context, pin)
    const why = body ? whyNoPin(body.pin) : 'Give a PIN.'
    if (!body || why !== null) return faulty(context, why ?? '')
    const kept = await accounts.secrets.keep(body.pin)
    if (kept === null) return tooBusy(context)
    await accounts.setSecret(person.id, kept)
    await noted(context, 'pin-set', person.name)
    return context.json({ person: await accounts.person(person.id) })
  })

  /** Nobody but the person ever knows the password: the code, told in person, lets them set it. */
  routes.post('/people/:id/password-code', async (context) => {
    const person = await accounts.person(context.req.param('id'))
    if (!person?.isActive || !hasAuthority(person)) return notFound(context)
    if (!mayManage(context, person.role)) return ownersOnly(context)
    const code = newCode()
    const expiresAt = now() + CODE_MS
    await accounts.addCode({ token: accounts.secrets.ofToken(code), kind: 'password', person: person.id, expiresAt })
    await noted(context, 'password-code-made', person.name)
    return context.json({ code, expiresAt })
  })

  async function isLastOwner(person: Person): Promise<boolean> {
    const others = (await accounts.people()).filter(
      ({ id, role, isActive }) => id !== person.id && role === 'owner' && isActive
    )
    return others.length === 0
  }
  return routes
}

function mayManage(context: Context, role: Role): boolean {
  return role === 'operator' || context.get('caller').session?.person.role === 'owner'
}

function ownersOnly(context: Context): Response {
  return problem(context, 403, 'Only an owner may do this', 'Supervisors look after operators only.')
}

function nameTaken(context: Context): Response {
  return problem(
    context,
    409,
    'The name is taken',
    'Two people need two names: add an initial. Somebody who has left can be brought back.'
  )
}
