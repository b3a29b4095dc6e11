/** Errors as RFC 9457 problem details. */
import type { Context } from 'hono'
import { HTTPException } from 'hono/http-exception'
import type { ContentfulStatusCode } from 'hono/utils/http-status'

export function problem(context: Context, status: ContentfulStatusCode, title: string, detail: string): Response {
  return context.json({ type: 'about:blank', title, status, detail }, status, {
    'content-type': 'application/problem+json'
  })
}

export function notFound(context: Context): Response {
  return problem(context, 404, 'Not found', `There is nothing at ${context.req.path}.`)
}

/** For a path that is there, asked in another way. */
export function notAllowed(allow: string): (context: Context) => Response {
  return (context) => {
    context.header('allow', allow)
    return problem(context, 405, 'Not allowed', `Use ${allow} here.`)
  }
}

/** What went wrong inside stays inside: only the log says more. */
export function onError(log: (message: string) => void): (error: Error, context: Context) => Response {
  return (error, context) => {
    if (error instanceof HTTPException) {
      return problem(context, error.status as ContentfulStatusCode, 'The request cannot be used', error.message)
    }
    log(`${context.req.method} ${context.req.path}: ${error.stack ?? error.message}`)
    if ('code' in error && error.code === 'SQLITE_FULL') {
      return problem(context, 507, 'The disk is full', 'The server has no room left. It kept nothing of this request.')
    }
    return problem(context, 500, 'The server failed', 'Something went wrong inside the server. Try again.')
  }
}
