import type { ServerStream } from '../ports/server-stream.ts'
import { listeners } from './listeners.ts'

/** The part of an EventSource that is used here. It opens again by itself after a lost connection. */
export interface EventStream {
  readonly readyState: number
  addEventListener(type: string, listener: (event: { readonly data?: unknown }) => void): void
  close(): void
}

/** What EventSource says of itself when an answer was no stream (a refusal, a proxy's own page): it will not try again. */
const GIVEN_UP = 2
const AGAIN_MS = 15_000

/** `open` is null where the browser has no server-sent events: then nobody is ever told. */
export function sseServerStream(open: (() => EventStream) | null): ServerStream {
  const moved = listeners<string | null>()
  const offered = listeners<void>()
  let stream: EventStream | null = null
  let waiting: ReturnType<typeof setTimeout> | undefined

  function begin(): void {
    const opened = open?.()
    if (!opened) return
    stream = opened
    opened.addEventListener('open', () => moved.tell(null))
    opened.addEventListener('error', () => {
      // One that was refused for want of pairing is let in later.
      if (opened.readyState === GIVEN_UP) waiting = setTimeout(begin, AGAIN_MS)
    })
    opened.addEventListener('offered', () => offered.tell())
    opened.addEventListener('moved', ({ data }) => {
      const runId = runOf(data)
      if (runId !== null) moved.tell(runId)
    })
  }
  begin()
  return {
    onMoved: moved.add,
    onOffered: offered.add,
    close() {
      clearTimeout(waiting)
      stream?.close()
    }
  }
}

function runOf(data: unknown): string | null {
  try {
    const { runId } = JSON.parse(String(data)) as { runId?: unknown }
    return typeof runId === 'string' ? runId : null
  } catch {
    return null
  }
}
