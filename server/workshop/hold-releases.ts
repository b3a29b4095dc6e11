/**
 * What was published in the page stays in the place of the file of its id, and is held to the rules that the shop has
 * now: those may have changed since.
 */
import { readProcedure } from '../../src/core/procedure/read-procedure.ts'
import type { ShopRules } from '../../src/core/sanitizer/shop-rules.ts'
import type { ProcedureFault } from '../../src/ports/server.ts'
import { fault } from '../procedures/read-files.ts'
import { versionOf } from '../procedures/version-of.ts'
import type { Records } from '../storage/records.ts'
import type { Release } from '../storage/workshop-records.ts'

/** Releases whose procedures do not come from a file, by id. */
export async function releasedHere(records: Records): Promise<ReadonlyMap<string, Release>> {
  const last = await records.lastReleases()
  return new Map(last.filter(({ followsFile }) => !followsFile).map((release) => [release.id, release]))
}

export async function holdReleases(
  released: ReadonlyMap<string, Release>,
  records: Records,
  shop: ShopRules,
  at: number
): Promise<readonly ProcedureFault[]> {
  const faults: ProcedureFault[] = []
  for (const { id, hash, reasons } of released.values()) {
    const source = (await records.source(hash)) ?? ''
    const read = readProcedure(source, shop)
    if (read.kind === 'faulty') {
      const [first] = read.problems
      faults.push(
        fault(
          `published here: ${id}`,
          `By the rules that are chosen now it cannot be published: ${first?.what ?? ''}`,
          `The version before stays. Mend it under Procedures: ${first?.mend ?? ''}`
        )
      )
      continue
    }
    const version = versionOf(read.procedure, source)
    if (version === null || version.hash === hash) continue
    await records.release(version, { note: '', by: '', at, followsFile: false, reasons })
  }
  return faults
}
