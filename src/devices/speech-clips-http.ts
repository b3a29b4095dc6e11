/** Clips over HTTP, kept in a cache of their own: they are large, outlive versions of the page, and may be missing without harm. */
import { coverWithClips, knownClips, type Known, type Piece } from '../core/talk/clips/cover.ts'
import { unpackWav, type Sound } from '../core/talk/clips/ima-adpcm.ts'
import type { ManifestClip, SpeechManifest } from '../core/talk/clips/speech-manifest.ts'
import { readSpeechManifest } from '../core/record/wire-speech.ts'
import type { Clock } from '../ports/clock.ts'
import type { ClipsState, SpeechClips } from '../ports/speech-clips.ts'
import { CLIP_CACHE } from './clip-cache.ts'
import { isContentOf } from './content-hash.ts'
import { sending } from './sending.ts'
import { toldState } from './told-state.ts'

/** What the mouth takes from the clips. */
export interface ClipSource {
  /** Nothing is here, in whichever language. */
  isEmpty(): boolean
  /** Null where the text cannot be said in this language (BCP 47) with what is here. */
  saying(text: string, language: string): readonly Piece<Sound>[] | null
}

export interface ClipParts {
  /** Null where the browser keeps nothing (plain http to another machine). */
  readonly caches: Pick<CacheStorage, 'open'> | null
  readonly fetch: (request: Request) => Promise<Response>
  readonly clock: Clock
  /** Origin of the server, no slash at its end. */
  readonly origin: string
}

const AT_ONCE = 6
/** What the server takes to be asked for where no language is named. */
const USUAL = 'en'
/** Until the server has rendered more, or is back. */
const AGAIN_MS = 5000
const UNPACKED_MOST = 40
/** Clips of texts in the making that are kept in mind. */
const MOST_BESIDE = 400

export function httpSpeechClips({ caches, fetch, clock, origin }: ClipParts): SpeechClips & ClipSource {
  const state = toldState<ClipsState>({ kind: 'none' })
  const bytesOf = new Map<string, Uint8Array>()
  const unpacked = new Map<string, Sound>()
  /** By language. */
  const known = new Map<string, Known<string>>()
  let manifest: SpeechManifest | null = null
  /** By language, of texts that belong to no published version, and how they were made. */
  const beside = new Map<string, SpeechManifest>()
  /** Where its list is. */
  let wanted: string | null = null
  let cancelAgain = () => {}

  const opened = async (): Promise<Cache | null> => (await caches?.open(CLIP_CACHE).catch(() => null)) ?? null
  const clipAddress = (hash: string) => `${origin}/api/speech/clips/${hash}`

  async function answered(address: string): Promise<Response | 'none' | null> {
    const response = await fetch(new Request(address, { redirect: 'error' })).catch(() => null)
    if (response?.status === 200) return response
    // Only problem details are the server's own word; another 404 is that of a proxy.
    const isOwn = response?.headers.get('content-type')?.startsWith('application/problem+json')
    return isOwn && response?.status === 404 ? 'none' : null
  }

  /** A full disk loses the copy, not the clip. */
  async function keep(cache: Cache | null, address: string, body: BodyInit): Promise<void> {
    await cache?.put(address, new Response(body)).catch(() => {})
  }

  /** `none`: the server has no such voice, or renders nothing. */
  async function manifestFor(
    address: string,
    cache: Cache | null
  ): Promise<{ readonly value: SpeechManifest | null; readonly fresh: boolean } | 'none'> {
    const response = await answered(address)
    if (response === 'none') return 'none'
    const fresh = response === null ? null : readSpeechManifest(await response.json().catch(() => null))
    if (fresh) {
      await keep(cache, address, JSON.stringify(fresh))
      return { value: fresh, fresh: true }
    }
    const kept = await cache?.match(address)
    return { value: kept ? readSpeechManifest(await kept.json().catch(() => null)) : null, fresh: false }
  }

  async function madeNow(texts: readonly string[], language: string): Promise<SpeechManifest | null> {
    const request = new Request(`${origin}/api/workshop/speech`, {
      ...sending('POST', { language, texts }),
      redirect: 'error'
    })
    const response = await fetch(request).catch(() => null)
    return response?.status === 200 ? readSpeechManifest(await response.json().catch(() => null)) : null
  }

  /** Only what its hash says: a damaged copy is fetched again. */
  async function bytesFor({ hash }: ManifestClip, cache: Cache | null): Promise<Uint8Array | null> {
    const kept = await cache?.match(clipAddress(hash))
    const copy = kept ? await kept.arrayBuffer() : null
    if (copy && (await isContentOf(hash, copy))) return new Uint8Array(copy)
    const response = await answered(clipAddress(hash))
    const bytes = response instanceof Response ? await response.arrayBuffer().catch(() => null) : null
    if (!bytes || !(await isContentOf(hash, bytes))) return null
    await keep(cache, clipAddress(hash), bytes)
    return new Uint8Array(bytes)
  }

  function clipsIn(language: string): readonly ManifestClip[] {
    const published = manifest?.language === language ? manifest.clips : []
    return [...published, ...(beside.get(language)?.clips ?? [])]
  }

  function use(): void {
    known.clear()
    for (const language of new Set([...(manifest ? [manifest.language] : []), ...beside.keys()])) {
      const here = clipsIn(language).filter(({ hash }) => bytesOf.has(hash))
      known.set(language, knownClips(here.map(({ spoken, hash }) => [spoken, hash] as const)))
    }
  }

  async function fetchAll(address: string): Promise<void> {
    const cache = await opened()
    const found = await manifestFor(address, cache)
    if (wanted !== address) return
    if (found === 'none') return forget()
    const { value, fresh } = found
    if (value === null) return again(address)
    manifest = value
    const missing = value.clips.filter((clip) => !bytesOf.has(clip.hash))
    let next = 0
    let failed = 0
    const tell = (kind: 'fetching' | 'cut-off') => {
      const have = value.clips.filter((clip) => bytesOf.has(clip.hash)).length
      state.set(have >= value.total ? { kind: 'whole', total: value.total } : { kind, have, total: value.total })
    }
    async function line(): Promise<void> {
      for (let clip = missing[next++]; clip; clip = missing[next++]) {
        if (wanted !== address) return
        const bytes = await bytesFor(clip, cache)
        if (bytes) bytesOf.set(clip.hash, bytes)
        else failed += 1
        if (next % 25 === 0) {
          use()
          tell('fetching')
        }
      }
    }
    await Promise.all(Array.from({ length: AT_ONCE }, line))
    if (wanted !== address) return
    use()
    tell(fresh && failed === 0 ? 'fetching' : 'cut-off')
    if (state.now().kind !== 'whole') again(address)
  }

  /** What is here says another language: the device's own voice speaks. */
  function forget(): void {
    manifest = null
    use()
    state.set({ kind: 'none' })
  }

  function again(address: string): void {
    cancelAgain = clock.after(AGAIN_MS, () => void fetchAll(address))
  }

  return {
    want(hash, language) {
      const address = `${origin}/api/speech/procedures/${hash}${language === USUAL ? '' : `?language=${language}`}`
      if (wanted === address) return
      wanted = address
      cancelAgain()
      void fetchAll(address)
    },
    async prepare(spoken, tag) {
      const language = baseOf(tag)
      const made = await madeOf(spoken, language)
      if (made === null) return
      for (const clip of made.clips) {
        const bytes = await bytesFor(clip, null)
        if (bytes) bytesOf.set(clip.hash, bytes)
      }
      const clips = [...(beside.get(language)?.clips ?? []), ...made.clips].slice(-MOST_BESIDE)
      beside.set(language, { ...made, clips })
      use()
    },
    rest() {
      wanted = null
      cancelAgain()
    },
    pronunciations: () => (manifest ?? [...beside.values()].at(-1))?.pronunciations ?? [],
    state: state.now,
    onState: state.onChange,
    isEmpty: () => known.size === 0,
    saying(text, language) {
      const clips = known.get(baseOf(language))
      const pieces = clips ? coverWithClips(text, clips) : null
      if (pieces === null || pieces.length === 0) return null
      const sounds = pieces.map(({ clip, pause }) => ({ clip: soundOf(clip), pause }))
      return sounds.every((piece): piece is Piece<Sound> => piece.clip !== null) ? sounds : null
    }
  }

  async function madeOf(spoken: readonly string[], language: string): Promise<SpeechManifest | null> {
    const there = new Set(clipsIn(language).map((clip) => clip.spoken))
    const missing = spoken.filter((text) => !there.has(text))
    const made = missing.length === 0 ? null : await madeNow(missing, language)
    return made?.language === language ? made : null
  }

  function soundOf(hash: string): Sound | null {
    const unpackedBefore = unpacked.get(hash)
    if (unpackedBefore) return unpackedBefore
    const bytes = bytesOf.get(hash)
    const sound = bytes ? unpackWav(bytes) : null
    if (sound === null) return null
    if (unpacked.size >= UNPACKED_MOST) unpacked.clear()
    unpacked.set(hash, sound)
    return sound
  }
}

/** Voices are of a language, wherever it is spoken. */
function baseOf(tag: string): string {
  return tag.split('-')[0] ?? tag
}
