/** Adds an entry to its site's chain. */
import { linkOf, NO_LINK } from '../../src/core/record/chain.ts'
import { sha256 } from '../procedures/content-hash.ts'

export interface ChainEnd {
  readonly place: number
  readonly link: string
}

export const NOTHING_CHAINED: ChainEnd = { place: 0, link: NO_LINK }

/** `receivedAt` in trusted epoch ms. */
export function chained(
  site: string,
  canonical: string,
  receivedAt: number,
  last: ChainEnd
): ChainEnd & { readonly site: string } {
  const place = last.place + 1
  const link = linkOf({ site, place, digest: sha256(canonical), receivedAt, previous: last.link }, sha256)
  return { site, place, link }
}
