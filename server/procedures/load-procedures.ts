/** Reads the procedure files and publishes their versions. A faulty file is told about and stops nothing else. */
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import { readProcedure } from '../../src/core/procedure/read-procedure.ts'
import type { ShopRules } from '../../src/core/sanitizer/shop-rules.ts'
import type { ProcedureFault } from '../../src/ports/server.ts'
import type { ProcedureVersion, Records } from '../storage/records.ts'
import { canonicalJson, sha256 } from './content-hash.ts'
import { loadRules } from './load-rules.ts'
import { codeOf, decoded, fault, yamlFiles } from './read-files.ts'

/**
 * Until the rules of the shop can be read, nothing is published: what was published before is held to rules that could.
 * A procedure whose file is gone leaves the list, but only when every file could be read: what a faulty file stood for
 * stays as it was. `at` is in epoch ms.
 */
export async function loadProcedures(folder: string, records: Records, at: number): Promise<readonly ProcedureFault[]> {
  const rules = await loadRules(join(folder, 'rules'))
  if (rules.kind === 'faulty') return rules.faults
  const files = await yamlFiles(folder)
  if (typeof files === 'string')
    return [fault('.', `The folder of procedures cannot be read (${files}).`, 'Check its permissions.')]
  const faults: ProcedureFault[] = [...rules.faults]
  const published = new Map<string, string>()
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
    await records.publish(read, at)
  }
  if (faults.length === 0) await records.keepCurrent([...published.keys()])
  return faults
}

async function versionIn(folder: string, file: string, shop: ShopRules): Promise<ProcedureVersion | ProcedureFault> {
  const bytes = await readFile(join(folder, file)).catch(codeOf)
  if (typeof bytes === 'string') return fault(file, `The file cannot be read (${bytes}).`, 'Check its permissions.')
  const source = decoded(bytes)
  if (source === null) return fault(file, 'The file is not in UTF-8.', 'Save it again with UTF-8 as its encoding.')
  const read = readProcedure(source, shop)
  if (read.kind === 'faulty')
    return { file, problems: read.problems.map(({ line, what, mend }) => ({ line, what, mend })) }
  const { procedure } = read
  const canonical = canonicalOf(procedure)
  if (canonical === null) {
    return fault(file, 'It holds half a character, written with \\u.', 'Write the character itself, or both halves.')
  }
  return { hash: sha256(canonical), procedure, canonical, source }
}

function canonicalOf(procedure: Procedure): string | null {
  try {
    return canonicalJson(procedure)
  } catch {
    return null
  }
}
