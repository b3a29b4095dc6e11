/** The rule sets that come with the program, as files and as the program reads them. */
import { readdirSync, readFileSync } from 'node:fs'
import { readRuleSet } from '../../src/core/sanitizer/read-rule-set.ts'
import type { RuleSet } from '../../src/core/sanitizer/rule-set.ts'

const folder = new URL('../../procedures/rules/', import.meta.url)

export const RULE_SET_FILES: readonly { readonly name: string; readonly text: string }[] = readdirSync(folder)
  .filter((name) => name.endsWith('.yaml') && name !== 'chosen.yaml')
  .map((name) => ({ name, text: readFileSync(new URL(name, folder), 'utf8') }))

export const RULE_SETS: readonly RuleSet[] = RULE_SET_FILES.map(({ name, text }) => mustReadRuleSet(name, text))

/** @throws when the file has problems, with all of them in the message. */
function mustReadRuleSet(name: string, text: string): RuleSet {
  const read = readRuleSet(text)
  if (read.kind === 'read') return read.ruleSet
  throw new Error(read.problems.map((problem) => `${name}:${problem.line}: ${problem.what} ${problem.mend}`).join('\n'))
}
