/** From the text of a procedure file to a procedure, or to problems an author can find and mend. */
import * as v from 'valibot'
import { isMap, isNode, isScalar, isSeq, LineCounter, parseDocument, type Document, type Node } from 'yaml'
import { authorFormat, type AuthoredProcedure } from './author-format.ts'
import { checkProcedure } from './check-procedure.ts'
import { explainShape } from './explain-shape.ts'
import { aliasProblem, explainYaml } from './explain-yaml.ts'
import { fromAuthored } from './from-authored.ts'
import type { PlacedProblem, Problem } from './problem.ts'
import type { Procedure } from './procedure.ts'

export type ReadProcedure =
  | { readonly kind: 'read'; readonly procedure: Procedure }
  | { readonly kind: 'faulty'; readonly problems: readonly PlacedProblem[] }

/** UTF-16 units; for the English of most procedures this is also its size in bytes. */
const LONGEST = 1_000_000

/** Aliases are refused: nobody needs them in a procedure, and nested ones can be made to grow without end. */
export function readProcedure(yamlText: string): ReadProcedure {
  if (yamlText.length > LONGEST) {
    return faulty([
      { line: null, column: null, what: 'The file is larger than 1 MB.', mend: 'Split it into several procedures.' }
    ])
  }
  const lines = new LineCounter()
  const document = parseDocument(yamlText, { lineCounter: lines, prettyErrors: false, uniqueKeys: true })
  if (document.errors.length > 0) return faulty(explainYaml(yamlText, document.errors, lines))
  const alias = aliasProblem(document, lines)
  if (alias) return faulty([alias])
  const plain: unknown = document.toJS({ maxAliasCount: 0 })
  if (plain === null || typeof plain !== 'object') return faulty([noProcedure(plain)])
  const shape = v.safeParse(authorFormat, plain)
  const problems = shape.success
    ? [...twoChecks(shape.output), ...checkProcedure(fromAuthored(shape.output))]
    : shape.issues.flatMap(explainShape)
  if (problems.length > 0 || !shape.success) {
    return faulty(onceEach(problems.map((problem) => placed(problem, document, lines))))
  }
  return { kind: 'read', procedure: fromAuthored(shape.output) }
}

function noProcedure(found: unknown): PlacedProblem {
  return {
    line: 1,
    column: 1,
    what: found === null ? 'The file is empty.' : 'The file has no keys.',
    mend: 'Begin with procedure: and a short name, or copy one of the files in procedures/ and change it.'
  }
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

/** A list where keys belong lacks every one of them; its author made one mistake. */
function onceEach(problems: readonly PlacedProblem[]): readonly PlacedProblem[] {
  const told = new Map(problems.map((problem) => [`${problem.line} ${problem.what}`, problem]))
  return [...told.values()]
}

/** The nearest place that exists in the file: a missing key is reported where the keys beside it begin. */
function placed({ path, what, mend }: Problem, document: Document.Parsed, lines: LineCounter): PlacedProblem {
  let node: unknown = document.contents
  let place = isNode(node) ? node : null
  for (const key of path) {
    const found = entryOf(node, key)
    if (!found) break
    place = found.place
    node = found.value
  }
  const { line, col } = lines.linePos(place?.range?.[0] ?? 0)
  return { line, column: col, what, mend }
}

/** What stands under a key or index; its place is the key itself, or the entry of a list. */
function entryOf(node: unknown, key: string | number): { readonly place: Node; readonly value: unknown } | null {
  if (isSeq(node)) {
    const item: unknown = node.items[Number(key)]
    return isNode(item) ? { place: item, value: item } : null
  }
  if (!isMap(node)) return null
  const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === String(key))
  return pair && isNode(pair.key) ? { place: pair.key, value: pair.value } : null
}
