/** From the text of a procedure file to a procedure, or to problems an author can find and mend. */
import * as v from 'valibot'
import { isNode, LineCounter, parseDocument, type Document } from 'yaml'
import { authorFormat, type AuthoredProcedure } from './author-format.ts'
import { checkProcedure } from './check-procedure.ts'
import { explainShape } from './explain-shape.ts'
import { fromAuthored } from './from-authored.ts'
import type { PlacedProblem, Problem } from './problem.ts'
import type { Procedure } from './procedure.ts'

export type ReadProcedure =
  | { readonly kind: 'read'; readonly procedure: Procedure }
  | { readonly kind: 'faulty'; readonly problems: readonly PlacedProblem[] }

const MOST_BYTES = 1_000_000

/** Aliases are refused: nobody needs them in a procedure, and nested ones can be made to grow without end. */
export function readProcedure(yamlText: string): ReadProcedure {
  if (yamlText.length > MOST_BYTES) {
    return faulty([{ line: null, column: null, what: 'The file is larger than 1 MB.', mend: 'Split it into several procedures.' }])
  }
  const lines = new LineCounter()
  const document = parseDocument(yamlText, { lineCounter: lines, prettyErrors: false, uniqueKeys: true })
  if (document.errors.length > 0) {
    return faulty(
      document.errors.map((error) => {
        const place = lines.linePos(error.pos[0])
        return { line: place.line, column: place.col, what: `This is not valid YAML: ${error.message}`, mend: 'Check the indentation, quotes and colons on this line and the one above.' }
      })
    )
  }
  let plain: unknown
  try {
    plain = document.toJS({ maxAliasCount: 0 })
  } catch {
    return faulty([{ line: null, column: null, what: 'The file uses YAML aliases (& and *).', mend: 'Write the repeated part out.' }])
  }
  const shape = v.safeParse(authorFormat, plain)
  const problems = shape.success ? [...twoChecks(shape.output), ...checkProcedure(fromAuthored(shape.output))] : shape.issues.flatMap(explainShape)
  if (problems.length > 0 || !shape.success) return faulty(problems.map((problem) => placed(problem, document, lines)))
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

function faulty(problems: readonly PlacedProblem[]): ReadProcedure {
  return { kind: 'faulty', problems }
}

/** The nearest place that exists in the file: a missing key is reported at its parent. */
function placed(problem: Problem, document: Document.Parsed, lines: LineCounter): PlacedProblem {
  for (let length = problem.path.length; length >= 0; length -= 1) {
    const node: unknown = length === 0 ? document.contents : document.getIn(problem.path.slice(0, length), true)
    if (isNode(node) && node.range) {
      const place = lines.linePos(node.range[0])
      return { line: place.line, column: place.col, what: problem.what, mend: problem.mend }
    }
  }
  return { line: 1, column: 1, what: problem.what, mend: problem.mend }
}
