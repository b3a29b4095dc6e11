/** Passwords and PINs as they are kept, and the hashes of tokens. */
import { createHmac, randomBytes, scrypt, timingSafeEqual } from 'node:crypto'

/** scrypt (RFC 7914): N, r and p. */
export interface Cost {
  readonly n: number
  readonly r: number
  readonly p: number
}

/** 32 MB a guess: one of the settings of equal strength in the OWASP Password Storage Cheat Sheet (N=2^15, r=8, p=3). */
const COST: Cost = { n: 2 ** 15, r: 8, p: 3 }

const AT_ONCE = 2
const MOST_WAITING = 20
const BYTES = 32
/** Beside the table that grows with the cost. */
const SPARE_BYTES = 2 ** 20

export type Matched = 'yes' | 'no' | 'busy'

export interface Secrets {
  /** What is kept of a secret; null when too many are asked for at once. */
  keep(secret: string): Promise<string | null>
  /** With nothing kept it takes as long and says no, so that nobody learns which names there are. */
  matches(secret: string, kept: string | null): Promise<Matched>
  /** What is kept of a token or a code: long ones made by chance need no slow hash. */
  ofToken(token: string): string
}

export function secretsWith(pepper: Buffer, cost: Cost = COST): Secrets {
  const inTurn = turns()
  const nobody = encode(cost, Buffer.alloc(16), Buffer.alloc(BYTES))

  function derive(secret: string, salt: Buffer, { n, r, p }: Cost): Promise<Buffer> {
    // NFKC: the same characters, however a keyboard composes them (NIST SP 800-63B-4, 3.1.1.2).
    const peppered = createHmac('sha256', pepper).update(secret.normalize('NFKC'), 'utf8').digest()
    return new Promise((resolve, reject) =>
      scrypt(peppered, salt, BYTES, { N: n, r, p, maxmem: 256 * n * r + SPARE_BYTES }, (error, key) =>
        error ? reject(error) : resolve(key)
      )
    )
  }

  return {
    keep: (secret) =>
      inTurn(async () => {
        const salt = randomBytes(16)
        return encode(cost, salt, await derive(secret, salt, cost))
      }),
    async matches(secret, kept) {
      const { cost: usual, salt, hash } = decode(kept ?? nobody)
      const same = await inTurn(async () => timingSafeEqual(await derive(secret, salt, usual), hash))
      if (same === null) return 'busy'
      return same && kept !== null ? 'yes' : 'no'
    },
    ofToken: (token) => createHmac('sha256', pepper).update(`token ${token}`, 'utf8').digest('base64url')
  }
}

/** A flood of guesses must take neither all memory nor all processors: null when the queue is full. */
function turns(): <T>(work: () => Promise<T>) => Promise<T | null> {
  let working = 0
  const waiting: (() => void)[] = []
  return async (work) => {
    if (working >= AT_ONCE) {
      if (waiting.length >= MOST_WAITING) return null
      await new Promise<void>((resolve) => waiting.push(resolve))
    }
    working += 1
    try {
      return await work()
    } finally {
      working -= 1
      waiting.shift()?.()
    }
  }
}

function encode({ n, r, p }: Cost, salt: Buffer, hash: Buffer): string {
  return `scrypt:${n}:${r}:${p}:${salt.toString('base64url')}:${hash.toString('base64url')}`
}

function decode(kept: string): { readonly cost: Cost; readonly salt: Buffer; readonly hash: Buffer } {
  const [, n, r, p, salt = '', hash = ''] = kept.split(':')
  return {
    cost: { n: Number(n), r: Number(r), p: Number(p) },
    salt: Buffer.from(salt, 'base64url'),
    hash: Buffer.from(hash, 'base64url')
  }
}
