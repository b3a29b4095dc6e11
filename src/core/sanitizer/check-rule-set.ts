/** What the shape of a rule set cannot show: figures that contradict each other and limits that cannot judge anything. */
import type { Problem } from '../procedure/problem.ts'
import type { AuthoredLimit, AuthoredRow, AuthoredRuleSet } from './rule-set-format.ts'
import { rowFrom } from './rule-set-from-authored.ts'
import type { Bounds } from './rule-set.ts'
import { inUnit } from './temperature.ts'

type Path = Problem['path']

export function checkRuleSet(authored: AuthoredRuleSet): Problem[] {
  return [
    ...emptyProblems(authored),
    ...(authored.otherwise === authored.rules
      ? [problem(['otherwise'], 'names the rule set itself.', 'Name another rule set, or take the key out.')]
      : []),
    ...productProblems(authored),
    ...(authored.limits ?? []).flatMap((limit, index) => limitProblems(limit, ['limits', index])),
    ...twice(authored)
  ]
}

function emptyProblems({ limits, duties }: AuthoredRuleSet): Problem[] {
  return limits === undefined && duties === undefined
    ? [problem([], 'has neither limits nor duties.', 'Add limits: or duties: with entries below it.')]
    : []
}

function productProblems({ kind, product }: AuthoredRuleSet): Problem[] {
  if (kind === 'jurisdiction') {
    return product === undefined
      ? []
      : [problem(['product'], 'belongs to a label, not to a jurisdiction.', 'Take it out, or write kind: label.')]
  }
  if (product === undefined) return []
  const wanted = product.form === 'tablet' ? ['milligrams'] : ['percent']
  const allowed = product.form === 'liquid' ? ['percent', 'convention', 'density'] : wanted
  const given = ['percent', 'milligrams', 'convention', 'density'].filter((key) => Object.hasOwn(product, key))
  return [
    ...wanted
      .filter((key) => !given.includes(key))
      .map((key) => problem(['product'], `lacks ${key}, which a ${product.form} needs.`, 'Add it from the label.')),
    ...given
      .filter((key) => !allowed.includes(key))
      .map((key) => problem(['product', key], `has no meaning for a ${product.form}.`, 'Take it out.'))
  ]
}

/** Which keys make sense in the rows of which limit; the first is needed. */
const KEYS: Readonly<Record<AuthoredLimit['limit'], readonly (keyof AuthoredRow)[]>> = {
  solution: ['strength', 'pH', 'hardness', 'temperature'],
  'contact time': ['time', 'strength', 'pH', 'temperature'],
  'no-rinse cap': ['strength'],
  temperature: ['temperature', 'time'],
  look: ['looks']
}

const CHEMICAL = ['solution', 'contact time', 'no-rinse cap'] as const

function limitProblems(limit: AuthoredLimit, path: Path): Problem[] {
  const isAgent = ['chlorine', 'iodine', 'quaternary ammonium'].includes(limit.for)
  const fitting = isAgent ? CHEMICAL : limit.for === 'rinse' ? ['look'] : ['temperature']
  if (!fitting.includes(limit.limit as never)) {
    return [problem([...path, 'limit'], `does not fit ${limit.for}.`, `Write ${fitting.join(' or ')}.`)]
  }
  const mustSet = limit['label must set'] ?? []
  if (limit['any of'] === undefined && mustSet.length === 0) {
    return [problem(path, 'has no rows.', 'Add any of: with at least one row, or label must set.')]
  }
  return (limit['any of'] ?? []).flatMap((row, index) => {
    const place = [...path, 'any of', index]
    const keys = Object.keys(row) as (keyof AuthoredRow)[]
    const [needed] = KEYS[limit.limit]
    const odd = keys.filter((key) => !KEYS[limit.limit].includes(key))
    return [
      ...(needed !== undefined && row[needed] === undefined && limit.limit !== 'solution'
        ? [problem(place, `has no ${needed}.`, `Add it: ${limit.limit} is about it.`)]
        : []),
      ...odd.map((key) => problem([...place, key], `has no meaning in ${limit.limit}.`, 'Take it out.')),
      ...(limit.limit === 'no-rinse cap' && row.strength !== undefined && !row.strength.startsWith('at most')
        ? [problem([...place, 'strength'], 'is no cap.', 'Write it as at most, such as at most 200 ppm.')]
        : []),
      ...boundProblems(row, place)
    ]
  })
}

/** A code rounds its two scales; more than a degree apart is a slip of the pen. */
const SCALES_APART_C = 1

function boundProblems(row: AuthoredRow, path: Path): Problem[] {
  return rowFrom(row).flatMap((demand) => {
    if (demand.quantity === 'clear') return []
    if (demand.quantity !== 'temperature') return swapped(demand, path)
    const { C, F } = demand
    const apart =
      C !== null &&
      F !== null &&
      (['min', 'max'] as const).some((side) => {
        const [c, f] = [C[side], F[side]]
        if (c === null || f === null) return c !== f
        return Math.abs(inUnit({ value: f, unit: 'F' }, 'C') - c) > SCALES_APART_C
      })
    return [
      ...(apart
        ? [problem([...path, 'temperature'], 'says two different temperatures.', 'Check both against the source.')]
        : []),
      ...[C, F].flatMap((bounds) => (bounds === null ? [] : swapped(bounds, path)))
    ]
  })
}

function swapped({ min, max }: Bounds, path: Path): Problem[] {
  return min !== null && max !== null && min > max
    ? [problem(path, 'has its bounds swapped.', 'Put the lower one first.')]
    : []
}

function twice({ limits = [] }: AuthoredRuleSet): Problem[] {
  return limits.flatMap((limit, index) =>
    limits.findIndex((other) => other.for === limit.for && other.limit === limit.limit) === index
      ? []
      : [
          problem(
            ['limits', index],
            `stands here a second time: ${limit.limit} for ${limit.for}.`,
            'Put its rows below any of, or take it out.'
          )
        ]
  )
}

function problem(path: Path, what: string, mend: string): Problem {
  const [list, index] = path
  const key = path.at(-1)
  const entry = typeof index === 'number' ? `${list === 'limits' ? 'Limit' : 'Duty'} ${index + 1}` : 'The file'
  const subject = typeof key === 'string' ? (typeof index === 'number' ? `${entry}: "${key}"` : `"${key}"`) : entry
  return { path, what: `${subject} ${what}`, mend }
}
