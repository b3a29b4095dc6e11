/** Who did what, for the owner. */
import { Hono } from 'hono'
import { problem } from '../problem.ts'
import type { AccountRoutes } from './session.ts'

const A_PAGE = 100

export function deedRoutes({ accounts }: AccountRoutes): Hono {
  const routes = new Hono()
  routes.get('/deeds', async (context) => {
    const before = context.req.query('before') ?? '0'
    if (!/^\d{1,15}$/.test(before))
      return problem(context, 422, 'No such place', 'Give before as a whole number from 0.')
    return context.json({ deeds: await accounts.deeds(Number(before), A_PAGE) })
  })
  return routes
}
