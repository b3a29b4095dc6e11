/** The page itself: hashed files for ever, the rest asked for again each time. */
import { serveStatic } from '@hono/node-server/serve-static'
import { Hono } from 'hono'

export function pageRoutes(folder: string): Hono {
  const routes = new Hono()
  routes.use('*', async (context, next) => {
    await next()
    if (context.res.status !== 200 && context.res.status !== 304) return
    const forEver = context.req.path.startsWith('/assets/')
    context.res.headers.set('cache-control', forEver ? 'public, max-age=31536000, immutable' : 'no-cache')
  })
  routes.get('*', serveStatic({ root: folder, precompressed: true }))
  return routes
}
