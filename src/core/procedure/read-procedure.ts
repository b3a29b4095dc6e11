/** From the text of a procedure file to a procedure, or to problems an author can find and mend. */
import * as v from 'valibot'
import { checkHeld, holdToRules } from '../sanitizer/hold-to-rules.ts'
import { NO_RULES, type ShopRules } from '../sanitizer/shop-rules.ts'
import { authorFormat, type AuthoredProcedure } from './author-format.ts'
import { checkProcedure } from './check-procedure.ts'
import { explainShape } from './explain-shape.ts'
import { fromAuthored } from './from-authored.ts'
import type { PlacedProblem, Problem } from './problem.ts'
import type { Procedure } from './procedure.ts'
import { readYaml } from './read-yaml.ts'

export type ReadProcedure =
  | {
      readonly kind: 'read'
      /** As it is published: held to the rules of the shop. */
      readonly procedure: Procedure
      /** As its author wrote it. */
      readonly written: Procedure
      /** Where in the file something stands that is found in it later. */
      readonly placed: (problems: readonly Problem[]) => readonly PlacedProblem[]
    }
  | { readonly kind: 'faulty'; readonly problems: readonly PlacedProblem[] }

/** The procedure as it is published in a shop: held to its rules. */
export function readProcedure(yamlText: string, shop: ShopRules = NO_RULES): ReadProcedure {
  const yaml = readYaml(yamlText, {
    split: 'Split it into several procedures.',
    begin: 'Begin with procedure: and a short name, or copy one of the files in procedures/ and change it.'
  })
  if (yaml.kind === 'faulty') return yaml
  const shape = v.safeParse(authorFormat, yaml.value)
  if (!shape.success) {
    return { kind: 'faulty', problems: yaml.placed(shape.issues.flatMap((issue) => explainShape(issue))) }
  }
  const written = fromAuthored(shape.output)
  const procedure = holdToRules(written, shop)
  const own = [...twoInOneStep(shape.output), ...checkProcedure(written)]
  const problems =
    own.length > 0 ? own : checkHeld(procedure).map((problem): Problem => ({ ...problem, check: 'rules' }))
  return problems.length > 0
    ? { kind: 'faulty', problems: yaml.placed(problems) }
    : { kind: 'read', procedure, written, placed: yaml.placed }
}

const ONE_OF_EACH = [
  ['ask', 'read', 'count'],
  ['use', 'rinse']
] as const

/** Only one check fits in a step, and only one of use and rinse; the form the program uses has room for no more. */
function twoInOneStep(authored: AuthoredProcedure): Problem[] {
  return authored.stages.flatMap((stage, stageIndex) =>
    stage.steps.flatMap((step, stepIndex) => {
      return ONE_OF_EACH.flatMap((keys) => {
        const given = keys.filter((key) => step[key] !== undefined)
        return given.length < 2
          ? []
          : [
              {
                path: ['stages', stageIndex, 'steps', stepIndex, given[1] ?? ''],
                what: `Step "${step.step}" has more than one of ${keys.slice(0, -1).join(', ')} and ${keys.at(-1) ?? ''}.`,
                mend: 'Give each its own step.'
              }
            ]
      })
    })
  )
}
