/**
 * Each site's entries as a chain of hashes: whoever changes, drops, adds or moves one has to change every link after it,
 * and the last link is signed. Texts that are hashed or signed are canonical JSON (RFC 8785): their keys stand in order,
 * and JSON.stringify writes strings and numbers as that standard does.
 */

/** Hash of a text's UTF-8 bytes, SHA-256 (FIPS 180-4), lower-case hex. */
export type Sha256 = (text: string) => string

export interface Place {
  readonly site: string
  /** Counts up from 1 in each site. */
  readonly place: number
}

export interface Linked extends Place {
  /** Hash of the entry's canonical JSON. */
  readonly digest: string
  /** When the server took it, trusted epoch ms. */
  readonly receivedAt: number
  readonly previous: string
}

/** What stands before the first entry. */
export const NO_LINK = '0'.repeat(64)

export function linkOf({ digest, place, previous, receivedAt, site }: Linked, sha256: Sha256): string {
  return sha256(JSON.stringify({ digest, place, previous, receivedAt, site }))
}

export interface Head extends Place {
  readonly link: string
  /** When it was signed, trusted epoch ms. */
  readonly at: number
}

/** What the signature of a head is made over. */
export function headText({ at, link, place, site }: Head): string {
  return JSON.stringify({ at, link, place, site })
}
