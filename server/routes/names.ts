/** Who is at the machine: names to choose from, and a PIN that shows it. */
import { Hono } from 'hono'
import * as v from 'valibot'
import { callerIds, doer, sourceOf } from '../accounts/caller.ts'
import { attempt } from '../accounts/throttle.ts'
import { hasAuthority } from '../accounts/person.ts'
import { notFound, problem } from '../problem.ts'
import { jsonOnly } from '../security.ts'
import { faulty, secret, slowDown, tooBusy } from './account-body.ts'
import { bodyOf, smallBody } from './json-body.ts'
import type { AccountRoutes } from './session.ts'

const pin = v.strictObject({ pin: secret })

export const NAME_BODIES = { 'POST /api/names/:id/check': pin }

export function nameRoutes({ accounts, newId, now }: AccountRoutes): Hono {
  const routes = new Hono()

  /** Of those who are here. Supervisors clean too; their password is never asked for as a PIN. */
  routes.get('/names', async (context) => {
    const people = (await accounts.people()).filter(({ isActive }) => isActive)
    return context.json({
      names: people.map((person) => ({
        id: person.id,
        name: person.name,
        signsIn: hasAuthority(person),
        hasPin: !hasAuthority(person) && person.hasSecret
      }))
    })
  })

  /** Gives the id of a check that a run's entry can name; the server then adds to the record that it was right. */
  routes.post('/names/:id/check', jsonOnly(), smallBody, async (context) => {
    const person = await accounts.person(context.req.param('id'))
    if (!person?.isActive || hasAuthority(person) || !person.hasSecret) return notFound(context)
    const body = await bodyOf(context, pin)
    if (!body) return faulty(context, 'Give a PIN.')
    const trying = await attempt(accounts, now(), { person: person.id }, sourceOf(context))
    if (trying.waitMs > 0) return slowDown(context, trying.waitMs)
    const matched = await accounts.secrets.matches(body.pin, await accounts.secretOf(person.id))
    if (matched === 'busy') {
      await trying.takeBack()
      return tooBusy(context)
    }
    if (matched === 'no') {
      await accounts.note({ at: now(), ...doer(context), what: 'pin-refused', about: person.name })
      return problem(
        context,
        403,
        'Not this PIN',
        'Try again, or go on without: the record says then that it was not checked.'
      )
    }
    await trying.forgive()
    const id = newId()
    const [givenTo = null] = callerIds(context)
    await accounts.addCheck({ id, person: person.id, name: person.name, at: now(), givenTo })
    return context.json({ check: id })
  })
  return routes
}
