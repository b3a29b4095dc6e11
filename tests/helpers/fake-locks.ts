import type { Locks } from '../../src/ports/locks.ts'

export interface FakeBrowserLocks {
  /** Another tab of the same browser. */
  tab(): Locks & { close(): void }
  /** Names that are held at the moment. */
  heldNames(): readonly string[]
}

interface Asking {
  readonly tab: object
  readonly name: string
  /** Starts to hold; calls back when it no longer does. */
  readonly begin: (over: () => void) => void
}

/** Tabs of one browser that share its locks. A lock is granted as soon as it is free, without waiting for a promise. */
export function fakeBrowserLocks(): FakeBrowserLocks {
  const held = new Map<string, Asking>()
  const waiting: Asking[] = []

  const grant = () => {
    for (const asking of [...waiting]) {
      if (held.has(asking.name) || !waiting.includes(asking)) continue
      waiting.splice(waiting.indexOf(asking), 1)
      held.set(asking.name, asking)
      asking.begin(() => leave(asking))
    }
  }
  const leave = (asking: Asking) => {
    if (held.get(asking.name) === asking) held.delete(asking.name)
    const place = waiting.indexOf(asking)
    if (place >= 0) waiting.splice(place, 1)
    grant()
  }
  const ask = (asking: Asking) => {
    waiting.push(asking)
    grant()
  }

  return {
    heldNames: () => [...held.keys()],
    tab() {
      const tab = {}
      let closed = false
      const open = () => {
        if (closed) throw new Error('This tab is closed and cannot ask for a lock.')
      }
      return {
        reach: 'all-tabs',
        exclusively(name, work) {
          open()
          return new Promise((resolve, reject) => {
            ask({ tab, name, begin: (over) => void work().then(resolve, reject).finally(over) })
          })
        },
        hold(name, begin) {
          open()
          const asking: Asking = { tab, name, begin: () => begin() }
          ask(asking)
          return () => leave(asking)
        },
        close() {
          closed = true
          for (const asking of [...waiting, ...held.values()]) if (asking.tab === tab) leave(asking)
        }
      }
    }
  }
}
