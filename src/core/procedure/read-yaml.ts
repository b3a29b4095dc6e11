/** From the text of a file that people write in YAML to plain values, or to problems with their places. */
import { isMap, isNode, isScalar, isSeq, LineCounter, parseDocument, type Document, type Node } from 'yaml'
import { aliasProblem, explainYaml } from './explain-yaml.ts'
import type { PlacedProblem, Problem } from './problem.ts'

export type ReadYaml =
  | {
      readonly kind: 'read'
      readonly value: object
      /** Where in the file the problems stand, each told once. */
      readonly placed: (problems: readonly Problem[]) => readonly PlacedProblem[]
    }
  | { readonly kind: 'faulty'; readonly problems: readonly PlacedProblem[] }

interface Advice {
  /** What to do with a file that is too large. */
  readonly split: string
  /** How such a file begins. */
  readonly begin: string
}

/** UTF-16 units; for the English of most files this is also its size in bytes. */
const LONGEST = 1_000_000

/** Aliases are refused: nobody needs them here, and nested ones can be made to grow without end. */
export function readYaml(yamlText: string, advice: Advice): ReadYaml {
  if (yamlText.length > LONGEST) {
    return faulty([{ line: null, column: null, what: 'The file is larger than 1 MB.', mend: advice.split }])
  }
  const lines = new LineCounter()
  const document = parseDocument(yamlText, { lineCounter: lines, prettyErrors: false, uniqueKeys: true })
  if (document.errors.length > 0) return faulty(explainYaml(yamlText, document.errors, lines))
  const alias = aliasProblem(document, lines)
  if (alias) return faulty([alias])
  const plain: unknown = document.toJS({ maxAliasCount: 0 })
  if (plain === null || typeof plain !== 'object') {
    const what = plain === null ? 'The file is empty.' : 'The file has no keys.'
    return faulty([{ line: 1, column: 1, what, mend: advice.begin }])
  }
  return {
    kind: 'read',
    value: plain,
    placed: (problems) => onceEach(problems.map((problem) => placed(problem, document, lines)))
  }
}

function faulty(problems: readonly PlacedProblem[]): ReadYaml {
  return { kind: 'faulty', problems }
}

/** A list where keys belong lacks every one of them; its author made one mistake. */
function onceEach(problems: readonly PlacedProblem[]): readonly PlacedProblem[] {
  const told = new Map(problems.map((problem) => [`${problem.line} ${problem.what}`, problem]))
  return [...told.values()]
}

/** The nearest place that exists in the file: a missing key is reported where the keys beside it begin. */
function placed({ path, what, mend, check }: Problem, document: Document.Parsed, lines: LineCounter): PlacedProblem {
  let node: unknown = document.contents
  let place = isNode(node) ? node : null
  for (const key of path) {
    const found = entryOf(node, key)
    if (!found) break
    place = found.place
    node = found.value
  }
  const { line, col } = lines.linePos(place?.range?.[0] ?? 0)
  return { line, column: col, what, mend, path, ...(check === undefined ? {} : { check }) }
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
