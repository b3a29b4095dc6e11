/** Says what a shape check found in words an author can act on. */
import type * as v from 'valibot'
import { EXAMPLES } from './examples.ts'
import type { Problem } from './problem.ts'

type Issue = v.BaseIssue<unknown>
type Path = readonly (string | number)[]

/** What helps the author of one kind of file. */
export interface Guide {
  /** One example for each key that cannot be left out, as it would stand in the file. */
  readonly examples: Readonly<Record<string, string>>
  /** The page that lists the keys. */
  readonly page: string
}

const PROCEDURES: Guide = { examples: EXAMPLES, page: 'procedures/README.md' }

export function explainShape(issue: Issue, guide: Guide = PROCEDURES): Problem[] {
  const meant = closestBranch(issue)
  if (meant) return meant.flatMap((inner) => explainShape(inner, guide))
  const holder = issue.path?.at(-1)
  const path = pathOf(issue)
  if (holder?.type === 'object' && Array.isArray(holder.input)) {
    return [
      problem(
        path.slice(0, -1),
        'is a list.',
        'Write words or keys with values here, without hyphens or brackets around them.'
      )
    ]
  }
  if (issue.type === 'strict_object' && issue.expected === 'never') {
    return [
      problem(
        path,
        'is not a key that can be used here.',
        `Check its spelling and indentation, or take it out. ${guide.page} lists the keys.`
      )
    ]
  }
  if (holder?.origin === 'key' && issue.type === 'regex') {
    return [problem(path.slice(0, -1), `has the key ${shown(issue.input)}.`, `Use ${wanted(issue)}.`)]
  }
  if (issue.input === undefined) {
    const example = guide.examples[String(path.at(-1))]
    return [
      problem(path, 'is missing.', example === undefined ? `Add ${wanted(issue)}.` : `Add it, for example ${example}`)
    ]
  }
  if (issue.input === null) return [problem(path, 'is empty.', `Write ${wanted(issue)}.`)]
  return [
    lengthProblem(issue, path) ??
      problem(path, `is ${shown(issue.input)}, which cannot be used.`, `Write ${wanted(issue)}.${quotes(issue)}`)
  ]
}

/**
 * A union fails once for each branch; a branch that got into the value is the one its author meant, unless it took a
 * list for keys. Paths inside begin at the value.
 */
function closestBranch(issue: Issue): readonly Issue[] | null {
  if (issue.type !== 'union' || !issue.issues) return null
  const isList = Array.isArray(issue.input)
  const deep = issue.issues.flatMap((inner) => {
    const [first, ...rest] = inner.path ?? []
    if (!first || (first.type === 'array') !== isList) return []
    return [{ ...inner, path: [...(issue.path ?? []), first, ...rest] as [v.IssuePathItem, ...v.IssuePathItem[]] }]
  })
  return deep.length > 0 ? deep : null
}

function lengthProblem(issue: Issue, path: Path): Problem | null {
  const { type, input, requirement } = issue
  const isList = Array.isArray(input)
  if (type === 'min_length' || type === 'min_entries') {
    const wanted = isList ? 'at least one entry' : type === 'min_entries' ? 'at least one key with a value' : 'words'
    return problem(path, 'is empty.', `Write ${wanted}.`)
  }
  if (type !== 'max_length') return null
  const most = String(requirement)
  return isList
    ? problem(path, `has ${input.length} entries.`, `Use at most ${most}.`)
    : problem(
        path,
        `has ${String(input).length} letters.`,
        `Use at most ${most}; what is longer nobody can hear or read at work.`
      )
}

function wanted(issue: Issue): string {
  switch (issue.type) {
    case 'string':
    case 'regex':
    case 'union':
      return issue.message
    case 'picklist':
      return `one of: ${(issue.expected ?? '').replaceAll(/["()]/g, '').replaceAll(' | ', ', ')}`
    case 'min_value':
      return `a number of at least ${String(issue.requirement)}`
    case 'gt_value':
      return `a number above ${String(issue.requirement)}`
    case 'max_value':
      return `a number of at most ${String(issue.requirement)}`
    case 'integer':
      return 'a whole number'
    case 'number':
      return 'a number without quotes or a unit'
    case 'array':
      return 'a list'
    default:
      return 'keys with values below it, indented by two spaces'
  }
}

/** YAML reads a bare 3 or true as something else than words. */
function quotes(issue: Issue): string {
  const bare = typeof issue.input === 'number' || typeof issue.input === 'boolean'
  return bare && issue.message.startsWith('words') ? ` Put it in quotes: '${String(issue.input)}'.` : ''
}

function shown(input: unknown): string {
  if (typeof input === 'string') return `"${input.length > 40 ? `${input.slice(0, 40)}...` : input}"`
  if (Array.isArray(input)) return 'a list'
  if (input !== null && typeof input === 'object') return 'a group of keys'
  return String(input)
}

function problem(path: Path, what: string, mend: string): Problem {
  return { path, what: `${placeInWords(path)} ${what}`, mend }
}

function pathOf(issue: Issue): Path {
  return (issue.path ?? []).flatMap((item) =>
    typeof item.key === 'string' || typeof item.key === 'number' ? [item.key] : []
  )
}

const ONE_OF: Readonly<Record<string, string>> = {
  stages: 'stage',
  steps: 'step',
  sides: 'side',
  tools: 'tool',
  parts: 'part',
  supplies: 'supply',
  solutions: 'solution',
  languages: 'language',
  cautions: 'caution',
  limits: 'limit',
  duties: 'duty'
}

/** `Stage 1, step 3: "hands"`, or `Side 2` when it is the entry itself. */
function placeInWords(path: Path): string {
  const entries: string[] = []
  let rest = [...path]
  for (;;) {
    const [list, index] = rest
    const one = typeof list === 'string' && typeof index === 'number' ? ONE_OF[list] : undefined
    if (one === undefined) break
    entries.push(`${one} ${Number(index) + 1}`)
    rest = rest.slice(2)
  }
  const keys = rest.map((key) => (typeof key === 'number' ? `entry ${key + 1}` : `"${key}"`)).join(', ')
  const place = entries.join(', ')
  if (place === '') return keys === '' ? 'The file' : keys
  const capital = place.slice(0, 1).toUpperCase() + place.slice(1)
  return keys === '' ? capital : `${capital}: ${keys}`
}
