/** Reads the procedure files and publishes their versions. A faulty file is told about and stops nothing else. */
import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { readProcedure } from '../../src/core/procedure/read-procedure.ts'
import type { ProcedureFault } from '../../src/ports/server.ts'
import type { Records } from '../storage/records.ts'
import { canonicalJson, sha256 } from './content-hash.ts'

export async function loadProcedures(folder: string, records: Records, at: number): Promise<readonly ProcedureFault[]> {
  const faults: ProcedureFault[] = []
  const published = new Map<string, string>()
  for (const file of await procedureFiles(folder)) {
    const source = await readFile(join(folder, file), 'utf8').catch((error: Error) => error)
    if (typeof source !== 'string') {
      faults.push(fault(file, `The file cannot be read: ${source.message}.`, 'Check its permissions.'))
      continue
    }
    const read = readProcedure(source)
    if (read.kind === 'faulty') {
      faults.push({ file, problems: read.problems.map(({ line, what, mend }) => ({ line, what, mend })) })
      continue
    }
    const { procedure } = read
    const other = published.get(procedure.id)
    if (other !== undefined) {
      faults.push(fault(file, `It has the id "${procedure.id}", which ${other} has already.`, 'Give one of the two another id.'))
      continue
    }
    published.set(procedure.id, file)
    const canonical = canonicalJson(procedure)
    await records.publish({ hash: sha256(canonical), procedure, canonical, source }, at)
  }
  return faults
}

async function procedureFiles(folder: string): Promise<readonly string[]> {
  const names = await readdir(folder).catch(() => [])
  return names.filter((name) => /\.ya?ml$/.test(name)).sort()
}

function fault(file: string, what: string, mend: string): ProcedureFault {
  return { file, problems: [{ line: null, what, mend }] }
}
