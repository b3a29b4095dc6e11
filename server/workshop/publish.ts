/** What becomes a version, and why something does not. */
import { checkDraft } from '../../src/core/procedure/draft/check-draft.ts'
import type { ShopRules } from '../../src/core/sanitizer/shop-rules.ts'
import { versionOf } from '../procedures/version-of.ts'
import type { ProcedureVersion } from '../storage/records.ts'
import type { KeptReason } from '../storage/workshop-records.ts'

export type ToPublish =
  | { readonly kind: 'version'; readonly version: ProcedureVersion; readonly reasons: readonly KeptReason[] }
  | { readonly kind: 'refused'; readonly title: string; readonly detail: string }

export interface AskedToPublish {
  readonly id: string
  readonly text: string
  /** Why it is published in spite of a warning, by the key of the finding. */
  readonly reasons: Readonly<Record<string, string>>
}

/** Errors stop it; each warning needs a reason. */
export function toPublish({ id, text, reasons }: AskedToPublish, shop: ShopRules): ToPublish {
  return judged(id, text, shop, (key) => (Object.hasOwn(reasons, key) ? (reasons[key] ?? '').trim() : ''))
}

/** A version that was published before, with the reasons that were given for it then. */
export function toGoBack(
  { id, text, accepted }: { readonly id: string; readonly text: string; readonly accepted: readonly KeptReason[] },
  shop: ShopRules
): ToPublish {
  const ready = judged(id, text, shop, () => 'Published before.')
  return ready.kind === 'version' && accepted.length > 0 ? { ...ready, reasons: accepted } : ready
}

function judged(id: string, text: string, shop: ShopRules, reasonFor: (key: string) => string): ToPublish {
  const checked = checkDraft(text, shop)
  const [error] = checked.findings.filter(({ weight }) => weight === 'error')
  if (error) {
    const line = error.line === null ? '' : `Line ${error.line}: `
    return refused('It cannot be published', `${line}${error.what} ${error.mend}`)
  }
  if (checked.kind === 'faulty') return refused('It cannot be published', 'It cannot be read.')
  if (checked.procedure.id !== id) {
    return refused(
      'Another procedure',
      `The text says it is "${checked.procedure.id}", and this is "${id}". Write procedure: ${id}, or import it.`
    )
  }
  const kept: KeptReason[] = []
  for (const { key, rule, what } of checked.findings) {
    const reason = reasonFor(key)
    if (reason === '') return refused('A warning needs a reason', what)
    kept.push({ rule, what, reason })
  }
  const version = versionOf(checked.procedure, text)
  return version === null
    ? refused('It cannot be published', 'It holds half a character, written with \\u. Write the character itself.')
    : { kind: 'version', version, reasons: kept }
}

function refused(title: string, detail: string): ToPublish {
  return { kind: 'refused', title, detail }
}
