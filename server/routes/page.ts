/** The page itself: hashed files for ever, the rest asked for again each time. */
import { serveStatic } from '@hono/node-server/serve-static'
import { Hono } from 'hono'
import { notAllowed } from '../problem.ts'

export function pageRoutes(folder: string): Hono {
  const routes = new Hono()
  routes.use('*', async (context, next) => {
    await next()
    const { status, headers, body } = context.res
    if (status !== 200 && status !== 206) return
    const forEver = context.req.path.startsWith('/assets/')
    headers.set('cache-control', forEver ? 'public, max-age=31536000, immutable' : 'no-cache')
    const modified = headers.get('last-modified')
    if (modified === null || context.req.header('if-modified-since') !== modified) return
    await body?.cancel()
    headers.delete('content-length')
    context.res = new Response(null, { status: 304, headers })
  })
  routes.get('*', serveStatic({ root: folder }))
  routes.on(['POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS'], '*', notAllowed('GET, HEAD'))
  return routes
}
