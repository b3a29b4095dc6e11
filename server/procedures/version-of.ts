/** From an author's text to the version that it is published as. */
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import { canonicalJson, sha256 } from './content-hash.ts'
import type { ProcedureVersion } from '../storage/records.ts'

/** `procedure` as `source` was read. Null when it holds half a character, which has no canonical form. */
export function versionOf(procedure: Procedure, source: string): ProcedureVersion | null {
  try {
    const canonical = canonicalJson(procedure)
    return { hash: sha256(canonical), procedure, canonical, source }
  } catch {
    return null
  }
}
