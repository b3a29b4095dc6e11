/** The procedures that come with the program, as files and as the program reads them. */
import { readdirSync, readFileSync } from 'node:fs'
import type { Procedure, Step } from '../../src/core/procedure/procedure.ts'
import { readProcedure } from '../../src/core/procedure/read-procedure.ts'
import { readChoice } from '../../src/core/sanitizer/read-choice.ts'
import { NO_RULES, type ShopRules } from '../../src/core/sanitizer/shop-rules.ts'
import { RULE_SETS } from '../sanitizer/shipped-rule-sets.ts'

const folder = new URL('../../procedures/', import.meta.url)

export const SHIPPED_FILES: readonly { readonly name: string; readonly text: string }[] = readdirSync(folder)
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => ({ name, text: readFileSync(new URL(name, folder), 'utf8') }))

export const SHIPPED: readonly { readonly name: string; readonly procedure: Procedure }[] = SHIPPED_FILES.map(
  ({ name, text }) => ({
    name,
    procedure: mustRead(name, text)
  })
)

/** The same, held to the rules that the program comes with. */
export const SHIPPED_WITH_RULES: readonly { readonly name: string; readonly procedure: Procedure }[] =
  SHIPPED_FILES.map(({ name, text }) => ({ name, procedure: mustRead(name, text, shippedRules()) }))

/** @throws when the choice cannot be read. */
function shippedRules(): ShopRules {
  const read = readChoice(readFileSync(new URL('rules/chosen.yaml', folder), 'utf8'), RULE_SETS)
  if (read.kind === 'read') return read.shop
  throw new Error(read.problems.map(({ what, mend }) => `${what} ${mend}`).join('\n'))
}

/** The closing and the opening of the invented twin freezer: the two that strip it and build it up. */
export const FREEZER = SHIPPED.filter(({ procedure }) => /^twin-freezer-(closing|opening)$/.test(procedure.id))

/** @throws when the file has problems, with all of them in the message. */
export function mustRead(name: string, text: string, shop: ShopRules = NO_RULES): Procedure {
  const read = readProcedure(text, shop)
  if (read.kind === 'read') return read.procedure
  throw new Error(read.problems.map((problem) => `${name}:${problem.line}: ${problem.what} ${problem.mend}`).join('\n'))
}

export function shipped(id: string): Procedure {
  const found = SHIPPED.find(({ procedure }) => procedure.id === id)
  if (!found) throw new Error(`no shipped procedure has the id ${id}`)
  return found.procedure
}

export function stepsOf(procedure: Procedure): readonly Step[] {
  return procedure.stages.flatMap((stage) => stage.steps)
}
