/**
 * Starts the page without the server. It keeps one version of the page's files and never changes it by itself: a newer
 * version waits until the page asks for it between runs, or until no tab has the page open.
 */
import { version } from 'virtual:page-files'
import { keptPage } from './devices/kept-page.ts'
import { takeOverIfAsked } from './devices/page-takeover.ts'

/** What is used of a service worker's own world; TypeScript's types of it cannot stand beside those of a page. */
interface WorkerWorld {
  readonly clients: { claim(): Promise<void> }
  skipWaiting(): Promise<void>
  addEventListener<Name extends keyof WorkerEvents>(name: Name, listener: (event: WorkerEvents[Name]) => void): void
}
type Lasting<More = object> = More & { waitUntil(work: Promise<void>): void }
interface WorkerEvents {
  readonly install: Lasting
  readonly activate: Lasting
  readonly message: Lasting<MessageEvent<unknown>>
  readonly fetch: { readonly request: Request; respondWith(answer: Promise<Response>): void }
}

const world = globalThis as unknown as WorkerWorld
const page = keptPage({ version, caches, fetch: (request) => fetch(request), origin: location.origin })

world.addEventListener('install', (event) => event.waitUntil(page.store()))
world.addEventListener('activate', (event) =>
  // Only pages it answers for keep it from being replaced, so it takes those that were open before it.
  event.waitUntil(page.dropOthers().then(() => world.clients.claim()))
)
world.addEventListener('fetch', (event) => {
  const path = page.pathFor(event.request)
  if (path !== null) event.respondWith(page.file(path, event.request))
})
world.addEventListener('message', (event) =>
  event.waitUntil(
    takeOverIfAsked(event, {
      locks: 'locks' in navigator ? navigator.locks : null,
      skipWaiting: () => world.skipWaiting()
    })
  )
)
