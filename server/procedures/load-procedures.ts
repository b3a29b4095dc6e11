/** Reads the procedure files and publishes their versions. A faulty file is told about and stops nothing else. */
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { readProcedure } from '../../src/core/procedure/read-procedure.ts'
import type { ShopRules } from '../../src/core/sanitizer/shop-rules.ts'
import type { ProcedureFault } from '../../src/ports/server.ts'
import type { ProcedureVersion, Records } from '../storage/records.ts'
import { loadRules } from './load-rules.ts'
import { holdReleases, releasedHere } from '../workshop/hold-releases.ts'
import { codeOf, decoded, fault, yamlFiles } from './read-files.ts'
import { versionOf } from './version-of.ts'

export interface LoadedProcedures {
  readonly faults: readonly ProcedureFault[]
  /** The version that the file of each id is, whether it is offered or one that was published here. */
  readonly shipped: ReadonlyMap<string, string>
}

/**
 * Until the rules of the shop can be read, nothing is published: what was published before is held to rules that could.
 * A procedure whose file is gone leaves the list, but only when every file could be read: what a faulty file stood for
 * stays as it was. `at` is in epoch ms.
 */
export async function loadProcedures(folder: string, records: Records, at: number): Promise<LoadedProcedures> {
  const shipped = new Map<string, string>()
  const rules = await loadRules(join(folder, 'rules'))
  if (rules.kind === 'faulty') return { faults: rules.faults, shipped }
  const files = await yamlFiles(folder)
  if (typeof files === 'string')
    return {
      faults: [fault('.', `The folder of procedures cannot be read (${files}).`, 'Check its permissions.')],
      shipped
    }
  const faults: ProcedureFault[] = [...rules.faults]
  const published = new Map<string, string>()
  const released = await releasedHere(records)
  for (const file of files) {
    const read = await versionIn(folder, file, rules.shop)
    if ('problems' in read) {
      faults.push(read)
      continue
    }
    const { id } = read.procedure
    const other = published.get(id)
    if (other !== undefined) {
      faults.push(fault(file, `It has the id "${id}", which ${other} has already.`, 'Give one of the two another id.'))
      continue
    }
    published.set(id, file)
    shipped.set(id, read.hash)
    if (released.has(id)) await records.keepVersion(read, at)
    else await records.publish(read, at)
  }
  if (faults.length === 0) await records.keepCurrent([...published.keys(), ...released.keys()])
  const unheld = await holdReleases(released, records, rules.shop, at)
  return { faults: [...faults, ...unheld], shipped }
}

async function versionIn(folder: string, file: string, shop: ShopRules): Promise<ProcedureVersion | ProcedureFault> {
  const bytes = await readFile(join(folder, file)).catch(codeOf)
  if (typeof bytes === 'string') return fault(file, `The file cannot be read (${bytes}).`, 'Check its permissions.')
  const source = decoded(bytes)
  if (source === null) return fault(file, 'The file is not in UTF-8.', 'Save it again with UTF-8 as its encoding.')
  const read = readProcedure(source, shop)
  if (read.kind === 'faulty')
    return { file, problems: read.problems.map(({ line, what, mend }) => ({ line, what, mend })) }
  return (
    versionOf(read.procedure, source) ??
    fault(file, 'It holds half a character, written with \\u.', 'Write the character itself, or both halves.')
  )
}
