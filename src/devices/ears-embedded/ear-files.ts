/** Fetches what the ears need once, checks it, and keeps it for when the network is away. */
import type { EarFiles } from './desk-messages.ts'

export interface EarFile {
  readonly name: keyof EarFiles
  /** On our server; it changes with the content. */
  readonly path: string
  /** Hexadecimal. */
  readonly sha256: string
}

/** The page's own versions begin with `page `; this store outlives them. */
const CACHE = 'ears'

/** @throws Error when a file cannot be had or is not what it should be. */
export async function earFiles(
  list: readonly EarFile[],
  storage: CacheStorage | null,
  get: typeof fetch
): Promise<EarFiles> {
  const cache = storage ? await storage.open(CACHE) : null
  const pairs = await Promise.all(list.map(async (file) => [file.name, await bytesOf(file, cache, get)] as const))
  await forgetOthers(list, cache)
  return Object.fromEntries(pairs) as unknown as EarFiles
}

async function bytesOf({ path, sha256 }: EarFile, cache: Cache | null, get: typeof fetch): Promise<Uint8Array> {
  const kept = await cache?.match(path)
  if (kept) {
    const bytes = new Uint8Array(await kept.arrayBuffer())
    if ((await hashOf(bytes)) === sha256) return bytes
  }
  const answer = await get(path)
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`)
  const bytes = new Uint8Array(await answer.arrayBuffer())
  if ((await hashOf(bytes)) !== sha256) throw new Error(`${path} is not what it should be.`)
  // A full disk is no reason to be deaf today.
  await cache?.put(path, new Response(bytes)).catch(() => {})
  return bytes
}

async function forgetOthers(list: readonly EarFile[], cache: Cache | null): Promise<void> {
  const wanted = new Set(list.map(({ path }) => path))
  for (const request of (await cache?.keys()) ?? []) {
    if (!wanted.has(new URL(request.url).pathname)) await cache?.delete(request)
  }
}

async function hashOf(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('')
}
