/** An export that anybody can check without the server: see core/record/check-export.ts. */
import { setImmediate as turn } from 'node:timers/promises'
import { headText, NO_LINK } from '../../src/core/record/chain.ts'
import { EXPORT_FORMAT, type Export } from '../../src/core/record/export-format.ts'
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import type { RunEvent } from '../../src/core/run/event.ts'
import { sha256 } from '../procedures/content-hash.ts'
import type { Signer } from '../signing/signing-key.ts'
import type { ChainEntry, Records, RunRow } from '../storage/records.ts'

type ExportedChain = Export['chains'][number]

export interface ExportParts {
  readonly records: Records
  readonly signer: Signer
  /** Trusted epoch ms. */
  readonly at: number
}

/**
 * The part of each site's chain from the first to the last entry of the runs, with everybody else's entries as digests.
 * Every site's whole chain when `runs` is null.
 */
export async function makeExport(parts: ExportParts, runs: readonly RunRow[] | null): Promise<Export> {
  const { records, signer, at } = parts
  const wanted = runs && new Set(runs.map(({ runId }) => runId))
  const spans = await (runs ? spansOf(records, runs) : wholeSpans(records))
  const chains: ExportedChain[] = []
  for (const [site, { from, to }] of spans) {
    const entries = await records.chainOfSite(site, from, to)
    const chain = await chainOf(entries, (runId) => wanted === null || wanted.has(runId), parts)
    if (chain) chains.push(chain)
    // Long chains take a while: others are served in between.
    await turn()
  }
  return {
    format: EXPORT_FORMAT,
    madeAt: at,
    chains,
    loose: [],
    keys: [{ id: signer.keyId, publicKey: signer.publicKey }],
    procedures: await proceduresOf(records, runs ?? (await records.runs(Number.MAX_SAFE_INTEGER)))
  }
}

interface Span {
  readonly from: number
  readonly to: number
}

/** Positions, in the order of the sites' names: entries of no site come first. */
async function spansOf(records: Records, runs: readonly RunRow[]): Promise<ReadonlyMap<string, Span>> {
  const spans = new Map<string, Span>()
  for (const { runId } of runs) {
    for (const { site, position } of await records.chainOfRun(runId)) {
      const known = spans.get(site)
      spans.set(site, {
        from: Math.min(position, known?.from ?? position),
        to: Math.max(position, known?.to ?? position)
      })
    }
  }
  return new Map([...spans].sort(([a], [b]) => (a < b ? -1 : 1)))
}

async function wholeSpans(records: Records): Promise<ReadonlyMap<string, Span>> {
  const sites = await records.sites()
  return new Map(sites.map(({ site }) => [site, { from: 0, to: Number.MAX_SAFE_INTEGER }]))
}

/** Null without entries. */
async function chainOf(
  entries: readonly ChainEntry[],
  isWanted: (runId: string) => boolean,
  { records, signer, at }: ExportParts
): Promise<ExportedChain | null> {
  const [first, last] = [entries[0], entries.at(-1)]
  if (!first || !last) return null
  const { site, place, link } = last
  return {
    site,
    after: { place: first.place - 1, link: (await records.linkBefore(site, first.position)) ?? NO_LINK },
    entries: entries.map((entry) => exported(entry, isWanted(entry.runId))),
    head: { at, key: signer.keyId, signature: signer.sign(headText({ at, link, place, site })) }
  }
}

function exported(
  { place, receivedAt, link, canonical }: ChainEntry,
  isWanted: boolean
): ExportedChain['entries'][number] {
  return isWanted
    ? { place, receivedAt, link, event: JSON.parse(canonical) as RunEvent }
    : { place, receivedAt, link, digest: sha256(canonical) }
}

async function proceduresOf(records: Records, runs: readonly RunRow[]): Promise<Export['procedures']> {
  const procedures: Record<string, Procedure> = {}
  for (const hash of new Set(runs.map(({ started }) => started.procedureHash))) {
    const canonical = await records.procedure(hash)
    if (canonical !== null) procedures[hash] = JSON.parse(canonical) as Procedure
  }
  return procedures
}
