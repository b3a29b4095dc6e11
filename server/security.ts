/** What a browser may do with our pages, and which requests may change anything. */
import type { MiddlewareHandler } from 'hono'
import { secureHeaders } from 'hono/secure-headers'
import { problem } from './problem.ts'

export function headers(): MiddlewareHandler {
  return secureHeaders({
    contentSecurityPolicy: {
      defaultSrc: ["'self'"],
      scriptSrc: ["'self'", "'wasm-unsafe-eval'"],
      workerSrc: ["'self'"],
      manifestSrc: ["'self'"],
      connectSrc: ["'self'"],
      imgSrc: ["'self'", 'data:', 'blob:'],
      mediaSrc: ["'self'", 'blob:'],
      styleSrc: ["'self'"],
      objectSrc: ["'none'"],
      baseUri: ["'none'"],
      frameAncestors: ["'none'"],
      formAction: ["'none'"]
    },
    permissionsPolicy: {
      microphone: ['self'],
      screenWakeLock: ['self'],
      autoplay: ['self'],
      fullscreen: ['self'],
      camera: false,
      geolocation: false,
      payment: false,
      usb: false
    },
    // A kitchen's localhost has no certificate; whoever puts https in front adds this there.
    strictTransportSecurity: false,
    referrerPolicy: 'no-referrer',
    xFrameOptions: 'DENY'
  })
}

/**
 * Only our own page may change things. Where a browser sends no Sec-Fetch-Site (plain http other than localhost), its
 * Origin must name this host. Requests with neither come from programs, which no site can make act for a visitor.
 */
export function sameOrigin(): MiddlewareHandler {
  return async (context, next) => {
    if (['GET', 'HEAD', 'OPTIONS'].includes(context.req.method)) return next()
    const site = context.req.header('sec-fetch-site')
    const origin = context.req.header('origin')
    const foreign =
      site !== undefined
        ? site !== 'same-origin'
        : origin !== undefined && hostOf(origin) !== context.req.header('host')?.toLowerCase()
    if (foreign) return problem(context, 403, 'Not from this page', 'Only pages of this server may send this.')
    return next()
  }
}

/** A form on another site cannot send JSON without asking first, and is refused when it asks. */
export function jsonOnly(): MiddlewareHandler {
  return async (context, next) => {
    const [type] = (context.req.header('content-type') ?? '').split(';')
    if (type?.trim().toLowerCase() === 'application/json') return next()
    return problem(context, 415, 'Not JSON', 'Send application/json.')
  }
}

function hostOf(origin: string): string | null {
  return URL.canParse(origin) ? new URL(origin).host : null
}
