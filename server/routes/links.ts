/** Links that let somebody outside read: an inspector the records, a calendar what is due. They end by themselves. */
import { Hono } from 'hono'
import * as v from 'valibot'
import { LINK_KINDS } from '../../src/core/record/account-kinds.ts'
import { doer, sourceOf } from '../accounts/caller.ts'
import { giveToken } from '../accounts/cookies.ts'
import { attempt } from '../accounts/throttle.ts'
import { newToken } from '../accounts/tokens.ts'
import { notFound } from '../problem.ts'
import { jsonOnly } from '../security.ts'
import { faulty, machineName, note, slowDown } from './account-body.ts'
import { bodyOf, smallBody } from './json-body.ts'
import type { AccountRoutes } from './session.ts'
import { whoAsks } from './who.ts'

const DAY_MS = 24 * 3600_000
/** A calendar is subscribed to for years; it is to be looked at once a year all the same. */
const MOST_DAYS = 366

const wanted = v.strictObject({
  kind: v.picklist(LINK_KINDS),
  note,
  machine: v.nullable(machineName),
  days: v.pipe(v.number(), v.safeInteger(), v.minValue(1), v.maxValue(MOST_DAYS))
})
const opened = v.strictObject({ token: v.pipe(v.string(), v.maxLength(100)) })

export const LINK_BODIES = { 'POST /api/links': wanted, 'POST /api/links/open': opened }

export function linkRoutes({ accounts, newId, now }: AccountRoutes): Hono {
  const routes = new Hono()
  const current = async () => (await accounts.links()).filter(({ expiresAt }) => expiresAt > now())

  routes.get('/links', async (context) => context.json({ links: await current() }))

  routes.post('/links', jsonOnly(), smallBody, async (context) => {
    const body = await bodyOf(context, wanted)
    if (!body) return faulty(context, `Say whom it is for, and for how many days, ${MOST_DAYS} at most.`)
    const token = newToken()
    const link = {
      id: newId(),
      kind: body.kind,
      note: body.note,
      machine: body.kind === 'inspector' ? body.machine : null,
      madeBy: doer(context).by,
      madeAt: now(),
      expiresAt: now() + body.days * DAY_MS
    }
    await accounts.addLink({ ...link, token: accounts.secrets.ofToken(token) })
    const scope = link.machine === null ? '' : `, ${link.machine}`
    await accounts.note({ at: now(), ...doer(context), what: 'link-made', about: `${link.kind}: ${link.note}${scope}` })
    // Shown this once: what is kept cannot be turned back into it.
    return context.json({ link, token })
  })

  routes.delete('/links/:id', async (context) => {
    const ended = await accounts.endLink(context.req.param('id'), now())
    if (!ended) return notFound(context)
    await accounts.note({ at: now(), ...doer(context), what: 'link-ended', about: `${ended.kind}: ${ended.note}` })
    return context.json({ links: await current() })
  })

  routes.post('/links/open', jsonOnly(), smallBody, async (context) => {
    const body = await bodyOf(context, opened)
    if (!body) return faulty(context, 'Give the whole link.')
    const trying = await attempt(accounts, now(), { token: 'links' }, sourceOf(context))
    if (trying.waitMs > 0) return slowDown(context, trying.waitMs)
    const link = await accounts.link(accounts.secrets.ofToken(body.token))
    if (link?.kind !== 'inspector' || link.expiresAt <= now())
      return faulty(context, 'This link has ended, or is not whole. Ask for another one.')
    await trying.forgive()
    giveToken(context, 'link', body.token, Math.ceil((link.expiresAt - now()) / 1000))
    await accounts.note({ at: now(), ...doer(context), what: 'link-opened', about: `${link.kind}: ${link.note}` })
    return context.json(whoAsks(context, now(), { link }))
  })
  return routes
}
