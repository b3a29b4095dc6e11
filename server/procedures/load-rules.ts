/** Reads the rule sets and labels of a shop, and which of them it has chosen. */
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { PlacedProblem } from '../../src/core/procedure/problem.ts'
import { readChoice } from '../../src/core/sanitizer/read-choice.ts'
import { readRuleSet } from '../../src/core/sanitizer/read-rule-set.ts'
import type { RuleSet } from '../../src/core/sanitizer/rule-set.ts'
import { NO_RULES, type RulesOffered, type ShopRules } from '../../src/core/sanitizer/shop-rules.ts'
import type { ProcedureFault } from '../../src/ports/server.ts'
import { codeOf, decoded, fault, yamlFiles } from './read-files.ts'

const CHOICE = 'chosen.yaml'

export type LoadedRules =
  /** `faults` are in rule sets that nobody has chosen. */
  | {
      readonly kind: 'loaded'
      readonly shop: ShopRules
      readonly shelf: readonly RuleSet[]
      readonly faults: readonly ProcedureFault[]
    }
  | { readonly kind: 'faulty'; readonly faults: readonly ProcedureFault[] }

/** A folder without a choice, or no folder, judges by the limits of the procedures alone. */
export async function loadRules(folder: string): Promise<LoadedRules> {
  const files = await yamlFiles(folder)
  if (files === 'ENOENT') return { kind: 'loaded', shop: NO_RULES, shelf: [], faults: [] }
  if (typeof files === 'string')
    return {
      kind: 'faulty',
      faults: [fault('rules', `The folder of rule sets cannot be read (${files}).`, 'Check its permissions.')]
    }
  const shelf: RuleSet[] = []
  const faults: ProcedureFault[] = []
  for (const file of files.filter((name) => name !== CHOICE)) {
    const text = await textIn(folder, file)
    if (typeof text !== 'string') {
      faults.push(text)
      continue
    }
    const read = readRuleSet(text)
    if (read.kind === 'faulty') faults.push(told(file, read.problems))
    else if (shelf.some(({ id }) => id === read.ruleSet.id))
      faults.push(fault(`rules/${file}`, `It has the id "${read.ruleSet.id}" of another file.`, 'Give it another id.'))
    else shelf.push(read.ruleSet)
  }
  if (!files.includes(CHOICE)) return { kind: 'loaded', shop: NO_RULES, shelf, faults }
  const text = await textIn(folder, CHOICE)
  if (typeof text !== 'string') return { kind: 'faulty', faults: [...faults, text] }
  const choice = readChoice(text, shelf)
  return choice.kind === 'read'
    ? { kind: 'loaded', shop: choice.shop, shelf, faults }
    : { kind: 'faulty', faults: [...faults, told(CHOICE, choice.problems)] }
}

/** For whoever works something out at a screen. */
export function offered(loaded: LoadedRules): RulesOffered {
  if (loaded.kind === 'faulty') return { chosen: null, shelf: [] }
  const { ruleSets, labels } = loaded.shop
  const [first] = ruleSets
  const chosen = first === undefined ? null : { rules: first.id, labels: labels.map(({ id }) => id) }
  return { chosen, shelf: loaded.shelf }
}

async function textIn(folder: string, file: string): Promise<string | ProcedureFault> {
  const bytes = await readFile(join(folder, file)).catch(codeOf)
  const name = `rules/${file}`
  if (typeof bytes === 'string') return fault(name, `The file cannot be read (${bytes}).`, 'Check its permissions.')
  return decoded(bytes) ?? fault(name, 'The file is not in UTF-8.', 'Save it again with UTF-8 as its encoding.')
}

function told(file: string, problems: readonly PlacedProblem[]): ProcedureFault {
  return { file: `rules/${file}`, problems: problems.map(({ line, what, mend }) => ({ line, what, mend })) }
}
