/** Says what a shape check found in words an author can act on. */
import * as v from 'valibot'
import type { Problem } from './problem.ts'

type Issue = v.BaseIssue<unknown>

export function explainShape(issue: Issue): Problem[] {
  const deeper = closestBranch(issue)
  if (deeper) return deeper.flatMap(explainShape)
  const path = (issue.path ?? []).flatMap((item) =>
    typeof item.key === 'string' || typeof item.key === 'number' ? [item.key] : []
  )
  const where = path.length > 0 ? path.map((key) => (typeof key === 'number' ? `item ${key + 1}` : `"${key}"`)).join(', ') : 'the file'
  const got = shown(issue.input)
  if (issue.type === 'strict_object' && issue.expected === 'never') {
    return [{ path, what: `${where}: this key is not known here.`, mend: 'Check its spelling, or take it out. procedures/README.md lists the keys.' }]
  }
  if (issue.input === undefined) {
    return [{ path, what: `${where} is missing.`, mend: `Add it: ${wanted(issue)}.` }]
  }
  return [{ path, what: `${where} is ${got}, which cannot be used.`, mend: `Write ${wanted(issue)}.` }]
}

/** A union fails once for each branch; the branch that got furthest into the value is the one its author meant. */
function closestBranch(issue: Issue): readonly Issue[] | null {
  if (issue.type !== 'union' || !issue.issues) return null
  const deep = issue.issues.filter((inner) => (inner.path?.length ?? 0) > (issue.path?.length ?? 0))
  if (deep.length > 0) return deep
  const typed = issue.issues.filter((inner) => inner.kind === 'validation')
  return typed.length > 0 ? typed.slice(0, 1) : null
}

function wanted(issue: Issue): string {
  switch (issue.type) {
    case 'regex':
      return String(issue.requirement).includes('min') ? 'a time such as 20 s, 5 min or 1 h 30 min' : 'small letters, digits and hyphens, starting with a letter'
    case 'picklist':
      return `one of ${issue.expected ?? ''}`.replaceAll('"', '').replaceAll(' | ', ', ').replaceAll(/[()]/g, '')
    case 'max_length':
    case 'min_length':
    case 'max_value':
    case 'min_value':
      return `a value or length that is ${issue.expected ?? ''}`
    case 'integer':
      return 'a whole number'
    case 'union':
      return 'words, or one entry a language'
    case 'array':
      return 'a list'
    case 'strict_object':
    case 'record':
      return 'a group of keys'
    default:
      return issue.expected === 'string' ? 'words' : issue.expected === 'number' ? 'a number' : `a value (${issue.expected ?? issue.type})`
  }
}

function shown(input: unknown): string {
  if (typeof input === 'string') return `"${input.length > 40 ? `${input.slice(0, 40)}...` : input}"`
  if (Array.isArray(input)) return 'a list'
  if (input !== null && typeof input === 'object') return 'a group of keys'
  return String(input)
}
