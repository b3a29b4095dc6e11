/** From the text of a procedure file to a procedure, or to problems an author can find and mend. */
import * as v from 'valibot'
import { authorFormat, type AuthoredProcedure } from './author-format.ts'
import { checkProcedure } from './check-procedure.ts'
import { explainShape } from './explain-shape.ts'
import { fromAuthored } from './from-authored.ts'
import type { PlacedProblem, Problem } from './problem.ts'
import type { Procedure } from './procedure.ts'
import { readYaml } from './read-yaml.ts'

export type ReadProcedure =
  | { readonly kind: 'read'; readonly procedure: Procedure }
  | { readonly kind: 'faulty'; readonly problems: readonly PlacedProblem[] }

export function readProcedure(yamlText: string): ReadProcedure {
  const yaml = readYaml(yamlText, {
    split: 'Split it into several procedures.',
    begin: 'Begin with procedure: and a short name, or copy one of the files in procedures/ and change it.'
  })
  if (yaml.kind === 'faulty') return yaml
  const shape = v.safeParse(authorFormat, yaml.value)
  const problems = shape.success
    ? [...twoChecks(shape.output), ...checkProcedure(fromAuthored(shape.output))]
    : shape.issues.flatMap((issue) => explainShape(issue))
  if (problems.length > 0 || !shape.success) return { kind: 'faulty', problems: yaml.placed(problems) }
  return { kind: 'read', procedure: fromAuthored(shape.output) }
}

/** Only one check fits in a step; the form the program uses has room for no more, so this must be seen here. */
function twoChecks(authored: AuthoredProcedure): Problem[] {
  return authored.stages.flatMap((stage, stageIndex) =>
    stage.steps.flatMap((step, stepIndex) => {
      const kinds = (['ask', 'read', 'count'] as const).filter((kind) => step[kind] !== undefined)
      return kinds.length < 2
        ? []
        : [
            {
              path: ['stages', stageIndex, 'steps', stepIndex, kinds[1] ?? ''],
              what: `Step "${step.step}" has more than one of ask, read and count.`,
              mend: 'Give each its own step.'
            }
          ]
    })
  )
}
