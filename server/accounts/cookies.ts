/** The tokens that a browser keeps for us. No script of the page can read them, and no other site makes it send them. */
import { getConnInfo } from '@hono/node-server/conninfo'
import type { Context } from 'hono'
import { deleteCookie, getCookie, setCookie } from 'hono/cookie'

export type CookieKind = 'session' | 'device' | 'link'

/** Browsers keep none for longer (RFC 6265bis, 5.5). */
const LONGEST_S = 400 * 24 * 3600

const NAMES: Readonly<Record<CookieKind, string>> = {
  session: 'sidecall-session',
  device: 'sidecall-device',
  link: 'sidecall-link'
}

/**
 * Whether the browser came by https. We only hear the proxy in front, which says so; where it does not, the page's own
 * Origin does. Who lies about it gets a cookie that works worse for him alone.
 */
function isSecure(context: Context): boolean {
  const { req } = context
  const origin = req.header('origin') ?? ''
  return (
    new URL(req.url).protocol === 'https:' ||
    req.header('x-forwarded-proto')?.split(',')[0]?.trim() === 'https' ||
    (URL.canParse(origin) &&
      new URL(origin).protocol === 'https:' &&
      new URL(origin).host === req.header('host')?.toLowerCase())
  )
}

/** `seconds` is null for one that ends with the browser. */
export function giveToken(context: Context, kind: CookieKind, token: string, seconds: number | null): void {
  const secure = isSecure(context)
  setCookie(context, NAMES[kind], token, {
    httpOnly: true,
    sameSite: 'Strict',
    path: '/',
    secure,
    ...(secure ? { prefix: 'host' as const } : {}),
    ...(seconds === null ? {} : { maxAge: Math.min(seconds, LONGEST_S) })
  })
}

/** Over https only the one that no neighbouring host and no plain connection can have put there counts. */
export function tokenIn(context: Context, kind: CookieKind): string | null {
  const safe = getCookie(context, NAMES[kind], 'host')
  if (safe !== undefined) return safe || null
  return isSecure(context) ? null : (getCookie(context, NAMES[kind]) ?? null) || null
}

export function takeToken(context: Context, kind: CookieKind): void {
  const secure = isSecure(context)
  deleteCookie(context, NAMES[kind], { path: '/', secure, ...(secure ? { prefix: 'host' as const } : {}) })
}

/** The other end of the connection, which may be a proxy; empty when nobody can say. */
export function addressOf(context: Context): string {
  try {
    return getConnInfo(context).remote.address ?? ''
  } catch {
    return ''
  }
}
