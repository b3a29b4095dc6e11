/** What checking an export takes from outside the core. */
import { canonicalEvent, canonicalJson, sha256 } from '../../server/procedures/content-hash.ts'
import { isSigned } from '../../server/signing/signing-key.ts'
import type { CheckTools } from '../../src/core/record/check-export.ts'

export const CHECK_TOOLS: CheckTools = {
  sha256,
  canonical: (value) =>
    typeof value === 'object' && value !== null && !Array.isArray(value) ? canonicalEvent(value) : canonicalJson(value),
  isSigned
}
