/** The server over HTTP. Every failure is a value; nothing here throws. */
import type { Procedure } from '../core/procedure/procedure.ts'
import { readEvent } from '../core/record/wire.ts'
import type { RunEvent } from '../core/run/event.ts'
import type { Answered, ProcedureFault, ProcedureListing, Receipt, RunListing, ServerLink } from '../ports/server.ts'

const TIMEOUT_MS = 8000

/** `base` is the server's origin, or empty for the page's own. */
export function serverOverHttp(base = ''): ServerLink {
  async function ask<T>(path: string, read: (body: unknown) => T | null, init: RequestInit = {}): Promise<Answered<T>> {
    let response: Response
    try {
      response = await fetch(`${base}${path}`, { ...init, signal: AbortSignal.timeout(TIMEOUT_MS) })
    } catch {
      return { kind: 'failed', failure: { kind: 'unreachable' } }
    }
    const body: unknown = await response.json().catch(() => undefined)
    // A proxy in front says 502 to 504 when the server behind it is away; too many requests passes too.
    if ([429, 502, 503, 504].includes(response.status)) return { kind: 'failed', failure: { kind: 'unreachable' } }
    if (!response.ok)
      return {
        kind: 'failed',
        failure: { kind: 'rejected', status: response.status, ...problemOf(body, response.status) }
      }
    const value = read(body)
    return value === null
      ? { kind: 'failed', failure: { kind: 'not-understood', detail: `The answer of ${path} has an unknown form.` } }
      : { kind: 'answered', value }
  }

  return {
    time: () =>
      ask('/api/time', (body) =>
        has(body, 'trusted') && typeof body.trusted === 'number' ? { trusted: body.trusted } : null
      ),
    procedures: () =>
      ask('/api/procedures', (body) =>
        has(body, 'procedures') && has(body, 'faults') && Array.isArray(body.procedures) && Array.isArray(body.faults)
          ? { procedures: body.procedures as ProcedureListing[], faults: body.faults as ProcedureFault[] }
          : null
      ),
    procedure: (hash) =>
      ask(`/api/procedures/${encodeURIComponent(hash)}`, (body) =>
        has(body, 'stages') && has(body, 'sides') ? (body as unknown as Procedure) : null
      ),
    runs: () =>
      ask('/api/runs', (body) => (has(body, 'runs') && Array.isArray(body.runs) ? (body.runs as RunListing[]) : null)),
    events: (runId, after) => ask(`/api/runs/${encodeURIComponent(runId)}/events?after=${after}`, readEvents),
    send: (events) =>
      ask(
        '/api/events',
        (body) =>
          has(body, 'stored') && has(body, 'rejected') && Array.isArray(body.stored) && Array.isArray(body.rejected)
            ? (body as unknown as Receipt)
            : null,
        { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ events }) }
      )
  }
}

function readEvents(body: unknown): { events: readonly RunEvent[]; position: number } | null {
  if (
    !has(body, 'events') ||
    !has(body, 'position') ||
    !Array.isArray(body.events) ||
    typeof body.position !== 'number'
  )
    return null
  const events: RunEvent[] = []
  for (const value of body.events as unknown[]) {
    const read = readEvent(value)
    if (read.kind === 'malformed') return null
    events.push(read.event)
  }
  return { events, position: body.position }
}

function has<Key extends string>(value: unknown, key: Key): value is Record<Key, unknown> {
  return typeof value === 'object' && value !== null && key in value
}

function problemOf(body: unknown, status: number): { title: string; detail: string } {
  return {
    title: has(body, 'title') && typeof body.title === 'string' ? body.title : `Status ${status}`,
    detail: has(body, 'detail') && typeof body.detail === 'string' ? body.detail : ''
  }
}
