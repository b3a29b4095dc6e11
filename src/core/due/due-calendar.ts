/** What is due as entries of a calendar: from when to start until it is due. What nobody can date has none. */
import type { Text } from '../procedure/procedure.ts'
import { calendar, type Dated } from './calendar.ts'
import type { DutyDue } from './due-now.ts'
import { dueWordsEn as words } from './words.en.ts'

/** `title` names a procedure. `at` is when the feed was made, epoch ms. */
export function dueCalendar(duties: readonly DutyDue[], title: (procedure: string) => Text | null, at: number): string {
  return calendar(
    words.calendar,
    duties.flatMap((duty) => dated(duty, title)),
    at
  )
}

function dated(due: DutyDue, title: (procedure: string) => Text | null): readonly Dated[] {
  const { state, procedure, machine, duty, source } = due
  const dueAt = 'dueAt' in state ? state.dueAt : null
  if (dueAt === null) return []
  const from = 'startBy' in state && state.startBy !== null ? state.startBy : dueAt
  const named = title(procedure)
  return [
    {
      // One entry for each time that it is due: one that was missed stays where it was.
      uid: `${procedure}-${duty}-${dueAt}@sidecall`,
      from,
      to: dueAt,
      title: words.entry(named ? (Object.values(named)[0] ?? procedure) : procedure, machine),
      text: [words.state(due), words.source(source), words.labelFirst].join('\n')
    }
  ]
}
