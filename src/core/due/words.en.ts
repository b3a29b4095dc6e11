/** The English words of what is due: on the screen and in calendars. */
import type { DutyDue } from './due-now.ts'

export const dueWordsEn = {
  calendar: 'Sidecall: due',
  entry: (title: string, machine: string) => `${title}: ${machine}`,
  forbidden: 'must not be used',
  state: ({ state }: DutyDue): string => {
    switch (state.kind) {
      case 'in-order':
        return state.dueAt === null ? 'nothing is due' : 'in order'
      case 'start-now':
        return 'start now'
      case 'overdue':
        return state.use === 'overdue' ? 'overdue' : 'overdue: must not be used'
      case 'never-done':
        return state.use === 'overdue' ? 'not in the records yet' : 'not in the records yet: must not be used'
      case 'under-way':
        return 'under way'
    }
  },
  startBy: (when: string) => `start by ${when}`,
  due: (when: string) => `due ${when}`,
  source: (source: string) => `Source: ${source}`,
  labelFirst: 'The product label, the manual and local code come first.'
}

export type DueWords = typeof dueWordsEn
