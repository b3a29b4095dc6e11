/** From the text of schedule.yaml to a schedule, or to problems its author can find and mend. */
import * as v from 'valibot'
import { explainShape } from '../procedure/explain-shape.ts'
import type { PlacedProblem, Problem } from '../procedure/problem.ts'
import { readYaml } from '../procedure/read-yaml.ts'
import { scheduleFormat, type AuthoredSchedule } from './schedule-format.ts'
import type { Duty, Schedule } from './schedule.ts'

export type ReadSchedule =
  | { readonly kind: 'read'; readonly schedule: Schedule }
  | { readonly kind: 'faulty'; readonly problems: readonly PlacedProblem[] }

const GUIDE = { page: 'procedures/due/README.md', examples: { do: 'do: twin-closing', source: 'source: The manual' } }

export function readSchedule(yamlText: string): ReadSchedule {
  const yaml = readYaml(yamlText, { split: 'It needs a list.', begin: 'Begin with due: and a list.' })
  if (yaml.kind === 'faulty') return yaml
  const shape = v.safeParse(scheduleFormat, yaml.value)
  if (!shape.success) {
    return { kind: 'faulty', problems: yaml.placed(shape.issues.flatMap((issue) => explainShape(issue, GUIDE))) }
  }
  const duties = (shape.output.due ?? []).map(dutyFrom)
  const problems = duties.flatMap((one) => ('what' in one ? [one] : []))
  if (problems.length > 0) return { kind: 'faulty', problems: yaml.placed(problems) }
  return { kind: 'read', schedule: { duties: duties.flatMap((one) => ('what' in one ? [] : [one])) } }
}

type AuthoredDuty = NonNullable<AuthoredSchedule['due']>[number]

function dutyFrom(authored: AuthoredDuty, index: number): Duty | Problem {
  const { do: procedure, every, source, edition, status, after } = authored
  const { 'each day of use by': dayBy, 'before use by': useBy, 'in use after': opens } = authored
  const line = {
    procedure,
    otherwise: authored['if not'] === undefined ? ('overdue' as const) : ('must-not-be-used' as const),
    ...{ source, edition, status }
  }
  const path = ['due', index]
  const given = [every, dayBy, useBy].filter((one) => one !== undefined)
  if (given.length !== 1) {
    return {
      path,
      what: given.length === 0 ? 'It does not say when.' : 'It says twice when.',
      mend: 'Write one of every:, each day of use by: and before use by:.'
    }
  }
  if ((after !== undefined) !== (useBy !== undefined)) {
    return { path, what: 'after: belongs with before use by:.', mend: 'Write both, or neither.' }
  }
  if (opens !== undefined && dayBy === undefined) {
    return { path, what: 'in use after: belongs with each day of use by:.', mend: 'Take it out, or write that too.' }
  }
  if (every !== undefined) return { ...line, kind: 'every', everySeconds: secondsOf(every) }
  if (dayBy !== undefined) return { ...line, kind: 'day-of-use', by: dayBy, opens: opens ?? [] }
  return { ...line, kind: 'before-use', by: useBy ?? '', after: after ?? [] }
}

const SECONDS: Readonly<Record<string, number>> = { hour: 3600, day: 86_400, week: 604_800 }

function secondsOf(every: string): number {
  const [count = '', unit = ''] = every.split(' ')
  return Number(count) * (SECONDS[unit.replace(/s$/, '')] ?? 0)
}
