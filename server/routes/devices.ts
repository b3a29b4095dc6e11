/** Which browsers belong to the shop, and the short codes that let another one in. */
import { Hono } from 'hono'
import * as v from 'valibot'
import { doer, sourceOf } from '../accounts/caller.ts'
import { pairDevice } from '../accounts/sessions.ts'
import { attempt } from '../accounts/throttle.ts'
import { newCode, typedCode } from '../accounts/tokens.ts'
import { notFound } from '../problem.ts'
import { jsonOnly } from '../security.ts'
import { code, deviceName, faulty, slowDown } from './account-body.ts'
import { bodyOf, smallBody } from './json-body.ts'
import type { AccountRoutes } from './session.ts'
import { whoAsks } from './who.ts'

/** Time to walk over to the tablet. */
const CODE_MS = 10 * 60_000

const pairing = v.strictObject({ code, name: deviceName })

export const DEVICE_BODIES = { 'POST /api/devices': pairing }

export function deviceRoutes({ accounts, newId, now }: AccountRoutes): Hono {
  const routes = new Hono()

  routes.get('/devices', async (context) => context.json({ devices: await accounts.devices() }))

  routes.post('/pairing-codes', async (context) => {
    const made = newCode()
    const expiresAt = now() + CODE_MS
    const { person } = context.get('caller').session ?? {}
    await accounts.addCode({
      token: accounts.secrets.ofToken(made),
      kind: 'pairing',
      person: person?.id ?? null,
      expiresAt
    })
    await accounts.note({ at: now(), ...doer(context), what: 'pairing-code-made', about: '' })
    return context.json({ code: made, expiresAt })
  })

  routes.post('/devices', jsonOnly(), smallBody, async (context) => {
    const body = await bodyOf(context, pairing)
    if (!body) return faulty(context, 'Give the code, and a name for this device of at most 60 characters.')
    const trying = await attempt(accounts, now(), { token: 'codes' }, sourceOf(context))
    if (trying.waitMs > 0) return slowDown(context, trying.waitMs)
    const token = accounts.secrets.ofToken(typedCode(body.code))
    const known = await accounts.code(token, now())
    if (known?.kind !== 'pairing' || !(await accounts.useCode(token)))
      return faulty(context, 'This code is not known, was used, or is older than ten minutes. Get a new one.')
    await trying.forgive()
    const device = await pairDevice(context, accounts, { id: newId(), name: body.name, now: now() })
    const by = (await accounts.person(known.person ?? ''))?.name ?? ''
    await accounts.note({ at: now(), by, device: device.name, what: 'device-paired', about: device.name })
    return context.json(whoAsks(context, now(), { device }))
  })

  routes.delete('/devices/:id', async (context) => {
    const ended = await accounts.endDevice(context.req.param('id'), now())
    if (!ended) return notFound(context)
    await accounts.note({ at: now(), ...doer(context), what: 'device-removed', about: ended.name })
    return context.json({ devices: await accounts.devices() })
  })
  return routes
}
