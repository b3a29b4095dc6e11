/**
 * One version of the page's files, kept whole in the browser's cache. Speech models and audio clips, once there are
 * any, belong in caches of their own: they are large, outlive a version, and may be missing without harm.
 */
export interface PageFile {
  /** From the top of the site: `/` is the page itself. */
  readonly path: string
  /** Subresource Integrity of its bytes, so that files of two versions never mix. */
  readonly integrity: string
}

export interface PageVersion {
  /** The same for the same files, and for no others. */
  readonly name: string
  readonly files: readonly PageFile[]
}

export interface KeptPageParts {
  readonly version: PageVersion
  readonly caches: Pick<CacheStorage, 'open' | 'has' | 'keys' | 'delete'>
  readonly fetch: (request: Request) => Promise<Response>
  /** Of this site. */
  readonly origin: string
}

export interface KeptPage {
  /** Stores all files, or rejects and leaves the caches as they were. */
  store(): Promise<void>
  /** Deletes every other version. */
  dropOthers(): Promise<void>
  /** Which kept file answers a request; null leaves it to the network. */
  pathFor(request: Request): string | null
  /** From the cache; from the network should the browser have lost it. */
  file(path: string, request: Request): Promise<Response>
}

const PREFIX = 'page '

export function keptPage({ version, caches, fetch, origin }: KeptPageParts): KeptPage {
  const name = `${PREFIX}${version.name}`
  const paths = new Set(version.files.map(({ path }) => path))
  const address = (path: string) => new URL(path, origin).href

  async function storeFile(cache: Cache, { path, integrity }: PageFile): Promise<void> {
    if (await cache.match(address(path), { ignoreVary: true })) return
    // A network that wants a sign-in redirects. What another version changed fails its integrity.
    const response = await fetch(new Request(address(path), { integrity, cache: 'no-cache', redirect: 'error' }))
    if (response.status !== 200) throw new Error(`${path} was answered with status ${response.status}.`)
    await cache.put(address(path), response)
  }

  return {
    async store() {
      const isNew = !(await caches.has(name))
      const cache = await caches.open(name)
      try {
        await Promise.all(version.files.map((file) => storeFile(cache, file)))
      } catch (fault) {
        if (isNew) await caches.delete(name)
        throw fault
      }
    },
    async dropOthers() {
      const others = (await caches.keys()).filter((other) => other.startsWith(PREFIX) && other !== name)
      await Promise.all(others.map((other) => caches.delete(other)))
    },
    pathFor(request) {
      const url = new URL(request.url)
      if (request.method !== 'GET' || url.origin !== origin || request.headers.has('range')) return null
      const path = url.pathname === '/index.html' ? '/' : url.pathname
      return paths.has(path) ? path : null
    },
    async file(path, request) {
      const cache = await caches.open(name)
      return (await cache.match(address(path), { ignoreVary: true })) ?? fetch(request)
    }
  }
}
