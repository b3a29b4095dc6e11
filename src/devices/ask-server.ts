/** One question to the server over HTTP. Every failure is a value; nothing here throws. */
import { readProblem } from '../core/record/wire-answers.ts'
import type { Answered, ServerFailure } from '../ports/server.ts'

export interface HttpOptions {
  /** The server's origin; empty for the page's own. */
  readonly base?: string
  /** How long a whole answer may take, ms. */
  readonly timeoutMs?: number
}

/** A full batch over a slow kitchen network; well under the time in which somebody would give up. */
const TIMEOUT_MS = 8000

/** Worth another try: the server or a proxy in front of it is away, too busy, or out of order for now. */
function passes(status: number): boolean {
  return status >= 500 || status === 408 || status === 425 || status === 429
}

/** Not every body that stops coming ends with its request: the time limit holds all the same. */
function whenAborted(signal: AbortSignal): Promise<never> {
  return new Promise((_, reject) => {
    signal.addEventListener('abort', () => reject(new Error('too late')))
  })
}

/** Null for an answer in an unknown form. */
type ReadAnswer<T> = (body: unknown, bytes: ArrayBuffer, headers: Headers) => T | null | Promise<T | null>

export type AskServer = <T>(path: string, read: ReadAnswer<T>, init?: RequestInit) => Promise<Answered<T>>

export function askServer({ base = '', timeoutMs = TIMEOUT_MS }: HttpOptions = {}): AskServer {
  return async function ask<T>(path: string, read: ReadAnswer<T>, init: RequestInit = {}): Promise<Answered<T>> {
    let response: Response
    let bytes: ArrayBuffer
    try {
      const signal = AbortSignal.timeout(timeoutMs)
      // A redirect is never ours: networks that want a sign-in send one.
      response = await fetch(`${base}${path}`, { cache: 'no-store', redirect: 'error', ...init, signal })
      bytes = await Promise.race([response.arrayBuffer(), whenAborted(signal)])
    } catch {
      return failed({ kind: 'unreachable' })
    }
    const body = parsed(bytes)
    if (!response.ok) return failed(failureOf(response, body))
    const value = await read(body, bytes, response.headers)
    return value === null ? failed(unknownForm(path)) : { kind: 'answered', value }
  }
}

function failed(failure: ServerFailure): { readonly kind: 'failed'; readonly failure: ServerFailure } {
  return { kind: 'failed', failure }
}

/** Only problem details are our server's own word. Anything else may be a proxy before it, or a sign-in page. */
function failureOf({ status, headers }: Response, body: unknown): ServerFailure {
  const isProblem = headers.get('content-type')?.startsWith('application/problem+json')
  const problem = isProblem ? readProblem(body) : null
  if (problem && (status >= 500 || status === 429)) return { kind: 'failing', status, ...problem }
  if (passes(status)) return { kind: 'unreachable' }
  if (problem) return { kind: 'rejected', status, ...problem }
  return { kind: 'not-understood', detail: `Something other than Sidecall answered with status ${status}.` }
}

function unknownForm(path: string): ServerFailure {
  return { kind: 'not-understood', detail: `The answer of ${path} has a form this page does not know.` }
}

/** Undefined when it is no JSON. */
function parsed(bytes: ArrayBuffer): unknown {
  try {
    return JSON.parse(new TextDecoder().decode(bytes))
  } catch {
    return undefined
  }
}
