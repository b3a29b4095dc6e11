/** Asks as one browser does: keeps the cookies that it is given, and sends them along. */
export type Ask = (path: string | Request, init?: RequestInit) => Promise<Response>

export function cookieJar(serve: (path: string | Request, init?: RequestInit) => Response | Promise<Response>): Ask {
  const jar = new Map<string, string>()
  return async (path, init = {}) => {
    const headers = new Headers(init.headers ?? (path instanceof Request ? path.headers : {}))
    if (jar.size > 0) headers.set('cookie', [...jar].map(([name, value]) => `${name}=${value}`).join('; '))
    const answer = await serve(path instanceof Request ? new Request(path, { headers }) : path, { ...init, headers })
    for (const cookie of answer.headers.getSetCookie()) {
      const [, name = '', value = ''] = /^([^=]+)=([^;]*)/.exec(cookie) ?? []
      if (/max-age=0\b/i.test(cookie)) jar.delete(name)
      else jar.set(name, value)
    }
    return answer
  }
}
