/** The page itself: hashed files for ever, the rest asked for again each time. */
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { serveStatic } from '@hono/node-server/serve-static'
import { Hono } from 'hono'
import { etag } from 'hono/etag'

export function pageRoutes(folder: string): Hono {
  const routes = new Hono()
  if (!existsSync(join(folder, 'index.html'))) {
    routes.get('/', (context) => context.text('The page is not built. Run: npm run build, and start again.', 503))
    return routes
  }
  routes.use('*', etag(), async (context, next) => {
    await next()
    if (![200, 206].includes(context.res.status)) return
    const forEver = context.req.path.startsWith('/assets/')
    context.res.headers.set('cache-control', forEver ? 'public, max-age=31536000, immutable' : 'no-cache')
  })
  routes.get('*', serveStatic({ root: folder, precompressed: true }))
  return routes
}
