/** How worn the parts of a machine are, for whoever gathers what the next run needs. */
import { Hono } from 'hono'
import type { WearBook } from '../due/wear-book.ts'
import { problem } from '../problem.ts'

export function wearRoutes(wear: WearBook): Hono {
  const routes = new Hono()
  routes.get('/wear', async (context) => {
    const machine = context.req.query('machine')
    if (machine === undefined) return problem(context, 400, 'No machine is named', 'Ask with ?machine= and its name.')
    return context.json({ parts: await wear.agesAt(machine) })
  })
  return routes
}
