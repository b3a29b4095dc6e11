/** Errors as RFC 9457 problem details. */
import type { Context } from 'hono'
import { HTTPException } from 'hono/http-exception'
import type { ContentfulStatusCode } from 'hono/utils/http-status'

export function problem(context: Context, status: ContentfulStatusCode, title: string, detail: string): Response {
  return context.json({ type: 'about:blank', title, status, detail }, status, {
    'content-type': 'application/problem+json',
    'cache-control': 'no-store'
  })
}

export function notFound(context: Context): Response {
  return problem(context, 404, 'Not found', `There is nothing at ${context.req.path}.`)
}

/** What went wrong inside stays inside: only the log says more. */
export function onError(log: (message: string) => void): (error: Error, context: Context) => Response {
  return (error, context) => {
    if (error instanceof HTTPException) {
      return problem(context, error.status, 'The request cannot be used', error.message)
    }
    log(`${context.req.method} ${context.req.path}: ${error.stack ?? error.message}`)
    return problem(context, 500, 'The server failed', 'Nothing was stored by this request. Try again.')
  }
}
