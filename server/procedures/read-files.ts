/** Reading the text files that people write, and telling them about those that cannot be read. */
import { readdir } from 'node:fs/promises'
import type { ProcedureFault } from '../../src/ports/server.ts'

/** Hidden files are what editors and file managers leave behind. */
export async function yamlFiles(folder: string): Promise<readonly string[] | string> {
  const names = await readdir(folder).catch(codeOf)
  return typeof names === 'string' ? names : names.filter((name) => /^[^.].*\.ya?ml$/.test(name)).sort()
}

/** The whole message would show where on this machine the file lies. */
export function codeOf(error: NodeJS.ErrnoException): string {
  return error.code ?? 'unknown reason'
}

/** Null when it is not in UTF-8. */
export function decoded(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return null
  }
}

export function fault(file: string, what: string, mend: string): ProcedureFault {
  return { file, problems: [{ line: null, what, mend }] }
}
