/** All that can be said of a draft: what it holds, and what its author should look at, by line. */
import type { ShopRules } from '../../sanitizer/shop-rules.ts'
import { lint } from '../lint/lint.ts'
import { NAMED_CHECKS } from '../lint/named-checks.ts'
import type { PlacedProblem } from '../problem.ts'
import type { Procedure } from '../procedure.ts'
import { readProcedure } from '../read-procedure.ts'

export interface DraftFinding {
  /** The same finding keeps its key while the draft changes elsewhere, so that a reason given for it stays. */
  readonly key: string
  /** Id of the rule. */
  readonly rule: string
  /** An error keeps the draft from being published; a warning asks for a reason. */
  readonly weight: 'error' | 'warning'
  /** From 1; null where it is about the whole. */
  readonly line: number | null
  readonly column: number | null
  /** Empty where it is about the whole. */
  readonly path: readonly (string | number)[]
  readonly what: string
  readonly mend: string
  readonly reason: string
  readonly source: string
}

export type CheckedDraft =
  | {
      readonly kind: 'sound'
      /** As it would be published: held to the rules of the shop. */
      readonly procedure: Procedure
      readonly written: Procedure
      readonly findings: readonly DraftFinding[]
    }
  | { readonly kind: 'faulty'; readonly findings: readonly DraftFinding[] }

export function checkDraft(text: string, shop: ShopRules): CheckedDraft {
  const read = readProcedure(text, shop)
  if (read.kind === 'faulty') return { kind: 'faulty', findings: read.problems.map(ofProblem) }
  const { procedure, written } = read
  const findings = lint(written, shop).flatMap((finding) =>
    read.placed([finding]).map(({ line, column, what, mend }): DraftFinding => {
      const { id, weight, reason, source } = finding.rule
      const key = `${id} ${placeIn(written, finding.path)}`
      return { key, rule: id, weight, line, column, path: finding.path, what, mend, reason, source }
    })
  )
  return { kind: 'sound', procedure, written, findings }
}

function ofProblem({ line, column, what, mend, path, check }: PlacedProblem): DraftFinding {
  const { id, reason, source } = NAMED_CHECKS[path === undefined ? 'yaml' : (check ?? 'shape')]
  return {
    key: `${id} ${(path ?? []).join('.')} ${what}`,
    ...{ rule: id, weight: 'error', line, column, path: path ?? [], what, mend, reason, source }
  }
}

/** By the step's id rather than by its number. */
function placeIn({ stages }: Procedure, path: DraftFinding['path']): string {
  const [top, stage, list, index, ...rest] = path
  const step = top === 'stages' && list === 'steps' ? stages[Number(stage)]?.steps[Number(index)] : undefined
  return step ? [step.id, ...rest].join('.') : path.join('.')
}
