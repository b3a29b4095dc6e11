/** Reads `pronunciations.yaml`: how this shop's own words and codes are said. */
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import * as v from 'valibot'
import { parse } from 'yaml'
import type { Pronunciation } from '../../src/core/talk/spoken/speakable.ts'
import type { ProcedureFault } from '../../src/ports/server.ts'
import { codeOf, decoded, fault } from '../procedures/read-files.ts'

const FILE = 'pronunciations.yaml'
const NAME = `speech/${FILE}`

const text = v.pipe(v.string(), v.trim(), v.nonEmpty())
const list = v.nullish(v.array(v.strictObject({ written: text, spoken: text })), [])

export interface LoadedPronunciations {
  readonly pronunciations: readonly Pronunciation[]
  readonly faults: readonly ProcedureFault[]
}

/** No file, no pronunciations. A faulty one counts as none, and is told about. */
export async function loadPronunciations(folder: string): Promise<LoadedPronunciations> {
  const bytes = await readFile(join(folder, FILE)).catch(codeOf)
  if (bytes === 'ENOENT') return { pronunciations: [], faults: [] }
  if (typeof bytes === 'string') return faulty(`The file cannot be read (${bytes}).`, 'Check its permissions.')
  const source = decoded(bytes)
  if (source === null) return faulty('The file is not in UTF-8.', 'Save it again with UTF-8 as its encoding.')
  try {
    const read = v.safeParse(list, parse(source, { maxAliasCount: 0 }))
    if (read.success) return { pronunciations: read.output, faults: [] }
  } catch {
    // No YAML: told about below.
  }
  return faulty(
    'It is no list of words and how they are said.',
    'Write each line as: - {written: DV-7B, spoken: draw valve}'
  )
}

function faulty(what: string, mend: string): LoadedPronunciations {
  return { pronunciations: [], faults: [fault(NAME, what, mend)] }
}
