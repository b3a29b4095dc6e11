import type { Locks } from '../ports/locks.ts'

/** The part of the Web Locks API that is used here. */
export interface LockGiver {
  request<T>(name: string, options: { readonly signal?: AbortSignal }, work: () => Promise<T>): Promise<T>
}

/** `browserLocks` is null where the browser has none (Safari before 15.4); then only this tab is kept in order. */
export function webLocks(browserLocks: LockGiver | null): Locks {
  const tabLocks = tabOnlyLocks()
  let giver = browserLocks ?? tabLocks

  const request: LockGiver['request'] = async (name, options, work) => {
    let begun = false
    try {
      return await giver.request(name, options, () => {
        begun = true
        return work()
      })
    } catch (fault) {
      if (begun || options.signal?.aborted || giver === tabLocks) throw fault
      // A page without an origin of its own may not ask (SecurityError): going on alone beats never working.
      giver = tabLocks
      return giver.request(name, options, work)
    }
  }

  return {
    get reach() {
      return giver === tabLocks ? 'this-tab' : 'all-tabs'
    },
    exclusively: (name, work) => request(name, {}, work),
    hold(name, held) {
      const giveUp = new AbortController()
      const released = new Promise<void>((resolve) => giveUp.signal.addEventListener('abort', () => resolve()))
      const keep = () => {
        if (!giveUp.signal.aborted) held()
        return released
      }
      request(name, { signal: giveUp.signal }, keep).catch((fault: unknown) => {
        if (giveUp.signal.aborted) return
        queueMicrotask(() => {
          throw fault
        })
      })
      return () => giveUp.abort()
    }
  }
}

/** First come, first served among the callers of this tab, like the real one among all tabs. */
function tabOnlyLocks(): LockGiver {
  const last = new Map<string, Promise<unknown>>()
  return {
    async request(name, { signal }, work) {
      const mine = (last.get(name) ?? Promise.resolve()).then(() => {
        signal?.throwIfAborted()
        return work()
      })
      const over = mine.catch(() => {})
      last.set(name, over)
      try {
        return await mine
      } finally {
        if (last.get(name) === over) last.delete(name)
      }
    }
  }
}
