/**
 * Slows guessing down. It is kept, so that a restart forgives nothing; and it counts a person together with where the
 * guesses come from, so that whoever guesses from outside locks nobody out who stands at a paired device.
 */
import type { Accounts, Tried } from './accounts.ts'

/** Where a guess comes from: a paired device by its id, others by their network address. */
export interface Source {
  readonly key: string
  readonly isPaired: boolean
}

interface Limit {
  readonly key: string
  /** Wrong guesses that cost nothing. */
  readonly free: number
  /** The first wait; each further wrong guess doubles it, up to `mostMs`. */
  readonly firstMs: number
  readonly mostMs: number
  /** After so long without a guess, none is remembered. */
  readonly forgottenMs: number
}

const SECOND = 1000
const MINUTE = 60 * SECOND
const HOUR = 60 * MINUTE

export interface Attempt {
  /** How long to wait before another guess, ms; 0: this one may be judged. It counts as wrong until it is forgiven or taken back. */
  readonly waitMs: number
  /** The guess was right. */
  forgive(): Promise<void>
  /** The guess was not judged: wrong ones from before still count. */
  takeBack(): Promise<void>
}

/** What is guessed at: a person's secret, which may be short, or something made by chance, which is not. */
export type Guessed = { readonly person: string } | { readonly token: 'codes' | 'links' }

export async function attempt(accounts: Accounts, now: number, guessed: Guessed, source: Source): Promise<Attempt> {
  const limits = limitsOf(guessed, source)
  const keys = limits.map(({ key }) => key)
  const current = (known: readonly (Tried | null)[]) =>
    limits.map(({ forgottenMs }, index) => {
      const tried = known[index] ?? null
      return tried && now - tried.lastAt < forgottenMs ? tried : null
    })
  const waitOf = (tried: readonly (Tried | null)[]) =>
    Math.max(0, ...tried.map((one) => (one?.blockedUntil ?? 0) - now))
  // Counted before it is judged, so that many at once are no way around.
  const before = current(
    await accounts.changeTried(keys, (known) => {
      const tried = current(known)
      return waitOf(tried) > 0 ? null : limits.map((limit, index) => after(limit, tried[index] ?? null, now))
    })
  )
  const waitMs = waitOf(before)
  return {
    waitMs,
    async forgive() {
      if (waitMs > 0) return
      await accounts.changeTried(keys, (known) => known.map((tried, index) => (index === 0 ? null : oneLess(tried))))
    },
    async takeBack() {
      if (waitMs === 0) await accounts.changeTried(keys, (known) => known.map(oneLess))
    }
  }
}

/** Others may have guessed meanwhile: only this one is taken back. */
function oneLess(tried: Tried | null): Tried | null {
  return tried && tried.failures > 1 ? { ...tried, failures: tried.failures - 1, blockedUntil: tried.lastAt } : null
}

function after({ free, firstMs, mostMs }: Limit, before: Tried | null, now: number): Tried {
  const failures = (before?.failures ?? 0) + 1
  const over = failures - free
  const waitMs = over < 0 ? 0 : Math.min(mostMs, firstMs * 2 ** Math.min(over, 30))
  return { failures, lastAt: now, blockedUntil: now + waitMs }
}

/** The first is forgotten after a right guess; the others go on counting. Common practice, no source for the figures. */
function limitsOf(guessed: Guessed, { key, isPaired }: Source): readonly Limit[] {
  const who = 'person' in guessed ? guessed.person : guessed.token
  const own = { key: `${who} from ${key}`, free: 5, firstMs: 30 * SECOND, mostMs: HOUR, forgottenMs: 24 * HOUR }
  const all = { key: `all from ${key}`, free: 20, firstMs: 30 * SECOND, mostMs: 15 * MINUTE, forgottenMs: HOUR }
  // Many addresses together, all unknown to the shop. A token has too many values for that to be worth a lock.
  const strangers = { key: `${who} from strangers`, free: 50, firstMs: HOUR, mostMs: HOUR, forgottenMs: 24 * HOUR }
  return isPaired || 'token' in guessed ? [own, all] : [own, all, strangers]
}
