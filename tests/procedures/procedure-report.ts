/** What an author gets to see about a procedure file: its problems, or its lanes with steps, work and waits. */
import { layOut, type Lane } from '../../src/core/procedure/course.ts'
import { lint } from '../../src/core/procedure/lint/lint.ts'
import { readProcedure } from '../../src/core/procedure/read-procedure.ts'
import { NO_RULES, type ShopRules } from '../../src/core/sanitizer/shop-rules.ts'

export interface ProcedureReport {
  readonly good: boolean
  readonly lines: readonly string[]
}

export function procedureReport(name: string, yamlText: string, shop: ShopRules = NO_RULES): ProcedureReport {
  const read = readProcedure(yamlText, shop)
  if (read.kind === 'faulty') {
    const lines = read.problems.map(
      ({ line, column, what, mend }) => `${name}${line === null ? '' : `:${line}:${column}`} ${what} ${mend}`
    )
    return { good: false, lines }
  }
  const findings = lint(read.written, shop)
  const told = findings.flatMap((finding) =>
    read.placed([finding]).map(({ line, column, what, mend }) => {
      const { id, weight, reason, source } = finding.rule
      return `${name}${line === null ? '' : `:${line}:${column}`} ${weight} ${id}: ${what} ${mend} ${reason} (${source})`
    })
  )
  const isGood = findings.every(({ rule }) => rule.weight === 'warning')
  const verdict = findings.length === 0 ? [`${name} reads well.`] : told
  return { good: isGood, lines: [...verdict, ...layOut(read.procedure).lanes.map(laneLine)] }
}

function laneLine({ id, steps }: Lane): string {
  const hands = steps.reduce((sum, { step }) => sum + step.handsSeconds, 0)
  const waits = steps.flatMap(({ step }) => (step.wait ? [step.wait.minSeconds] : []))
  const waiting = waits.reduce((sum, seconds) => sum + seconds, 0)
  return `${id}: ${steps.length} steps, about ${minutes(hands)} of work, ${waits.length} waits of ${minutes(waiting)} in all`
}

function minutes(seconds: number): string {
  return `${Math.round(seconds / 6) / 10} min`
}
