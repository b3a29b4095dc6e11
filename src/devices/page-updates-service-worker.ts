import type { PageUpdates, PageUpdatesState } from '../ports/page-updates.ts'
import { listeners } from './listeners.ts'
import { askToTakeOver } from './page-takeover.ts'
import { toldState } from './told-state.ts'

export interface ServiceWorkerParts {
  /** Null where the browser has none, or not for this page. */
  readonly container: Pick<ServiceWorkerContainer, 'controller' | 'register' | 'addEventListener'> | null
  /** Whether this page came over a safe connection; over another one browsers have no service workers. */
  readonly secure: boolean
}

const SCRIPT = '/service-worker.js'

export function serviceWorkerUpdates({ container, secure }: ServiceWorkerParts): PageUpdates {
  const state = toldState<PageUpdatesState>(
    container ? { kind: 'unknown' } : { kind: 'absent', reason: secure ? 'unsupported' : 'insecure' }
  )
  const taken = listeners<void>()
  let registration: ServiceWorkerRegistration | null = null
  let registering = false
  let heldBack: ServiceWorker | null = null
  let answeredBy = container?.controller ?? null

  container?.addEventListener('controllerchange', () => {
    // The first worker that answers for this page keeps the version that the page is of.
    if (answeredBy) taken.tell()
    answeredBy = container.controller
  })

  function settle(): void {
    if (!registration) return
    const { installing, waiting, active } = registration
    if (active && waiting) state.set({ kind: waiting === heldBack ? 'update-held-back' : 'update-waiting' })
    else if (active) state.set({ kind: 'ready' })
    else if (installing || waiting) state.set({ kind: 'unknown' })
    else state.set({ kind: 'absent', reason: 'failed' })
  }

  function follow(worker: ServiceWorker | null): void {
    worker?.addEventListener('statechange', settle)
  }

  async function register(from: NonNullable<ServiceWorkerParts['container']>): Promise<void> {
    registering = true
    try {
      const found = await from.register(SCRIPT, { updateViaCache: 'none' })
      registration = found
      for (const worker of [found.installing, found.waiting, found.active]) follow(worker)
      found.addEventListener('updatefound', () => {
        follow(found.installing)
        settle()
      })
      settle()
    } catch {
      // No room, a certificate that was clicked through, or a server that is away at the first visit.
      state.set({ kind: 'absent', reason: 'failed' })
    }
    registering = false
  }

  return {
    state: state.now,
    onState: state.onChange,
    look() {
      if (!container || registering) return
      // A first version that could not be stored leaves nothing behind that could look again.
      if (!registration || state.now().kind === 'absent') void register(container)
      // With the server away there is nothing newer to be had; the version that is kept stays.
      else registration.update().catch(() => {})
    },
    take() {
      const waiting = registration?.waiting
      if (!waiting) return
      heldBack = null
      settle()
      askToTakeOver(waiting, () => {
        heldBack = waiting
        settle()
      })
    },
    onTaken: taken.add
  }
}
