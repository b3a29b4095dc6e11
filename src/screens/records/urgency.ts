import type { DutyDue } from '../../core/due/due-now.ts'

/** From what must not wait to what nobody can say yet. */
const URGENCIES = ['forbidden', 'overdue', 'start-now', 'under-way', 'calm', 'unknown'] as const
export type Urgency = (typeof URGENCIES)[number]

export function urgencyOf({ state }: DutyDue): Urgency {
  switch (state.kind) {
    case 'overdue':
    case 'never-done':
      return state.use === 'must-not-be-used' ? 'forbidden' : 'overdue'
    case 'start-now':
    case 'under-way':
      return state.kind
    case 'in-order':
      return state.dueAt === null ? 'unknown' : 'calm'
  }
}

export function isUrgent(duty: DutyDue): boolean {
  return !['calm', 'unknown'].includes(urgencyOf(duty))
}

export function byUrgency(duties: readonly DutyDue[]): readonly DutyDue[] {
  return duties.toSorted((a, b) => URGENCIES.indexOf(urgencyOf(a)) - URGENCIES.indexOf(urgencyOf(b)))
}

export function mostUrgentOf(duties: readonly DutyDue[]): DutyDue | null {
  return byUrgency(duties)[0] ?? null
}
