/**
 * Whether an export is what its server chained and signed. It is read by hand, place by place: whatever was done to it,
 * the first entry that does not fit is named.
 */
import { headText, linkOf, type Head, type Sha256 } from './chain.ts'
import { EXPORT_FORMAT } from './export-format.ts'
import { checkSignature, newTally, tallied, type Signed, type Tally } from './check-signatures.ts'

export interface CheckTools {
  readonly sha256: Sha256
  /** RFC 8785. */
  readonly canonical: (value: unknown) => string
  /** Ed25519 (RFC 8032); key and signature in base64. */
  readonly isSigned: (text: string, signature: string, publicKey: string) => boolean
}

export type Fault =
  | 'not-an-export'
  | 'nothing-in-it'
  | 'place'
  | 'entry'
  | 'repeated'
  | 'signature'
  | 'unknown-key'
  | 'head'
  | 'procedure'

export interface BrokenAt {
  readonly site: string | null
  readonly place: number | null
  /** Id of the entry, where it says one. */
  readonly entry: string | null
  readonly run: string | null
}

export type Checked =
  | {
      readonly kind: 'sound'
      readonly entries: number
      /** Places of which only the digest is there. */
      readonly others: number
      readonly loose: number
      readonly signatures: number
      readonly heads: readonly (Head & { readonly key: string })[]
    }
  | { readonly kind: 'broken'; readonly fault: Fault; readonly at: BrokenAt }

type Bag = Readonly<Record<string, unknown>>

interface ChainChecked {
  readonly head: Head & { readonly key: string }
  readonly others: number
}

export function checkExport(value: unknown, tools: CheckTools): Checked {
  const file = bag(value)
  if (!file || file['format'] !== EXPORT_FORMAT) return broken('not-an-export')
  const [chains, loose, procedures] = [list(file['chains']), list(file['loose']), bag(file['procedures'])]
  const keys = keysIn(file, tools)
  if (!chains || !loose || !procedures || !keys) return broken('not-an-export')
  if (chains.length === 0 && loose.length === 0) return broken('nothing-in-it')
  const wrong = Object.entries(procedures).find(([hash, procedure]) => hash !== digestOf(procedure, tools))
  if (wrong) return broken('procedure', { entry: wrong[0] })
  const ids = new Set<string>()
  // One for all chains: what came before a run had begun stands in the chain of no site, which comes first.
  const tally = newTally()
  const checked: ChainChecked[] = []
  for (const chain of chains) {
    const one = checkChain(bag(chain), { ids, tally, keys }, tools)
    if ('fault' in one) return one
    checked.push(one)
  }
  return {
    kind: 'sound',
    entries: tally.entries,
    others: checked.reduce((sum, { others }) => sum + others, 0),
    loose: loose.length,
    signatures: tally.signatures,
    heads: checked.map(({ head }) => head)
  }
}

interface SoFar {
  readonly ids: Set<string>
  readonly tally: Tally
  readonly keys: ReadonlyMap<string, string>
}

function checkChain(
  chain: Bag | null,
  { ids, tally, keys }: SoFar,
  tools: CheckTools
): ChainChecked | Extract<Checked, { kind: 'broken' }> {
  const [entries, after, head, site] = [
    list(chain?.['entries']),
    bag(chain?.['after']),
    bag(chain?.['head']),
    chain?.['site']
  ]
  if (!entries || !after || !head || typeof site !== 'string') return broken('not-an-export')
  let [place, previous] = [Number(after['place']), String(after['link'])]
  let others = 0
  for (const value of entries) {
    const entry = bag(value)
    const event = bag(entry?.['event'])
    place += 1
    const at = { site, place, entry: text(event?.['id']), run: text(event?.['runId']) }
    if (!entry || entry['place'] !== place) return broken('place', at)
    const digest = event ? digestOf(event, tools) : text(entry['digest'])
    const receivedAt = entry['receivedAt']
    if (digest === null || typeof receivedAt !== 'number') return broken('entry', at)
    previous = linkOf({ site, place, digest, receivedAt, previous }, tools.sha256)
    if (entry['link'] !== previous) return broken('entry', at)
    if (!event) {
      others += 1
      continue
    }
    if (at.entry === null || at.run === null) return broken('entry', at)
    if (ids.has(at.entry)) return broken('repeated', at)
    ids.add(at.entry)
    if (event['type'] === 'signed' && !checkSignature(tally, at.run, event as unknown as Signed))
      return broken('signature', at)
    tallied(tally, at.run, previous, event['type'] === 'signed')
  }
  const signed: Head = { site, place, link: previous, at: Number(head['at']) }
  const where = { site, place, entry: null, run: null }
  const key = keys.get(String(head['key']))
  if (key === undefined) return broken('unknown-key', where)
  if (!tools.isSigned(headText(signed), String(head['signature']), key)) return broken('head', where)
  return { others, head: { ...signed, key: String(head['key']) } }
}

function keysIn(file: Bag, { sha256 }: CheckTools): ReadonlyMap<string, string> | null {
  const keys = list(file['keys'])?.map(bag)
  if (!keys) return null
  const named = keys.map((key): readonly [string, string] => [String(key?.['id']), String(key?.['publicKey'])])
  return named.every(([id, key]) => id === sha256(key)) ? new Map(named) : null
}

/** Null for what has no canonical form. */
function digestOf(value: unknown, { canonical, sha256 }: CheckTools): string | null {
  try {
    return sha256(canonical(value))
  } catch {
    return null
  }
}

function broken(fault: Fault, at: Partial<BrokenAt> = {}): Extract<Checked, { kind: 'broken' }> {
  return { kind: 'broken', fault, at: { site: null, place: null, entry: null, run: null, ...at } }
}

function bag(value: unknown): Bag | null {
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Bag) : null
}

function list(value: unknown): readonly unknown[] | null {
  return Array.isArray(value) ? value : null
}

function text(value: unknown): string | null {
  return typeof value === 'string' ? value : null
}
