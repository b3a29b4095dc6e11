/** A browser's caches in memory. What a kept page does not use is not there, so that using it fails. */
export interface FakeCaches extends Pick<CacheStorage, 'open' | 'has' | 'keys' | 'delete'> {
  /** Addresses kept under a name, sorted. */
  addresses(name: string): readonly string[]
  /** The disk is full from now on. */
  fill(): void
}

export function fakeCaches(): FakeCaches {
  const all = new Map<string, Map<string, Response>>()
  let full = false

  const cacheOver = (rows: Map<string, Response>): Cache =>
    ({
      match: async (address: string) => rows.get(address)?.clone(),
      async put(address: string, response: Response) {
        if (full) throw new DOMException('No room.', 'QuotaExceededError')
        if (response.bodyUsed) throw new TypeError('The body was read already.')
        rows.set(address, new Response(await response.arrayBuffer(), response))
      }
    }) as unknown as Cache

  return {
    async open(name) {
      const rows = all.get(name) ?? new Map<string, Response>()
      all.set(name, rows)
      return cacheOver(rows)
    },
    has: async (name) => all.has(name),
    keys: async () => [...all.keys()],
    delete: async (name) => all.delete(name),
    addresses: (name) => [...(all.get(name)?.keys() ?? [])].sort(),
    fill() {
      full = true
    }
  }
}
