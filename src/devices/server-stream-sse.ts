import type { ServerStream } from '../ports/server-stream.ts'
import { listeners } from './listeners.ts'

/** The part of an EventSource that is used here. It opens again by itself after a lost connection. */
export interface EventStream {
  addEventListener(type: string, listener: (event: { readonly data?: unknown }) => void): void
  close(): void
}

/** `stream` is null where the browser has no server-sent events: then nobody is ever told. */
export function sseServerStream(stream: EventStream | null): ServerStream {
  const moved = listeners<string | null>()
  stream?.addEventListener('open', () => moved.tell(null))
  stream?.addEventListener('moved', ({ data }) => {
    const runId = runOf(data)
    if (runId !== null) moved.tell(runId)
  })
  return { onMoved: moved.add, close: () => stream?.close() }
}

function runOf(data: unknown): string | null {
  try {
    const { runId } = JSON.parse(String(data)) as { runId?: unknown }
    return typeof runId === 'string' ? runId : null
  } catch {
    return null
  }
}
