/** What the bench can be asked, and its answer, wherever it is worked out. */
import { tryOut, type Trial } from '../core/plan/trial.ts'
import { readDraft } from '../core/procedure/draft/read-draft.ts'
import { applyEdits, type Edit, type Edited } from '../core/procedure/edit/edit.ts'
import type { Procedure } from '../core/procedure/procedure.ts'
import type { ShopRules } from '../core/sanitizer/shop-rules.ts'
import type { ReadDraft } from '../ports/workshop.ts'

export type DraftQuestion =
  | { readonly kind: 'read'; readonly text: string; readonly shop: ShopRules }
  | { readonly kind: 'edit'; readonly text: string; readonly edits: readonly Edit[] }
  | { readonly kind: 'trial'; readonly procedure: Procedure; readonly seed: number }

export type DraftAnswer =
  | { readonly kind: 'read'; readonly read: ReadDraft }
  | { readonly kind: 'edit'; readonly edited: Edited }
  | { readonly kind: 'trial'; readonly trial: Trial }

export function answerDraftQuestion(question: DraftQuestion): DraftAnswer {
  switch (question.kind) {
    case 'read':
      return { kind: 'read', read: readDraft(question.text, question.shop) }
    case 'edit':
      return { kind: 'edit', edited: applyEdits(question.text, question.edits) }
    case 'trial':
      return { kind: 'trial', trial: tryOut(question.procedure, question.seed) }
  }
}
