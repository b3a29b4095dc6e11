/** A draft for whoever shows it: what it holds, as plain values, and what is wrong with it. */
import type { ShopRules } from '../../sanitizer/shop-rules.ts'
import { readYaml } from '../read-yaml.ts'
import { checkDraft, type CheckedDraft } from './check-draft.ts'

export function readDraft(text: string, shop: ShopRules): { readonly value: unknown; readonly checked: CheckedDraft } {
  const yaml = readYaml(text, { split: '', begin: '' })
  return { value: yaml.kind === 'read' ? yaml.value : null, checked: checkDraft(text, shop) }
}
