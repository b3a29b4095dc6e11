/** What is due as entries of a calendar: from when to start until it is due. What nobody can date has none. */
import { calendar, type Dated } from './calendar.ts'
import type { DutyDue } from './due-now.ts'
import { dueWordsEn as words } from './words.en.ts'

/** `at` is when the feed was made, epoch ms. */
export function dueCalendar(duties: readonly DutyDue[], at: number): string {
  return calendar(
    words.calendar,
    duties.flatMap((duty) => dated(duty)),
    at
  )
}

function dated(due: DutyDue): readonly Dated[] {
  const { state, procedure, title, machine, duty, source } = due
  const dueAt = 'dueAt' in state ? state.dueAt : null
  if (dueAt === null) return []
  const from = 'startBy' in state && state.startBy !== null ? state.startBy : dueAt
  return [
    {
      // One entry for each time that it is due: one that was missed stays where it was.
      uid: `${procedure}-${duty}-${dueAt}@sidecall`,
      from,
      to: dueAt,
      title: words.entry(title ? (Object.values(title)[0] ?? procedure) : procedure, machine),
      text: [words.state(due), words.source(source), words.labelFirst].join('\n')
    }
  ]
}
