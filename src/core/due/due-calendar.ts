/** What is due as entries of a calendar: from when to start until it is due. What nobody can date has none. */
import { calendar, type Dated } from './calendar.ts'
import type { DutyDue } from './due-now.ts'
import type { DueWords } from './words.en.ts'

export interface CalendarReader {
  readonly words: DueWords
  /** BCP 47. */
  readonly language: string
}

/** `at` is when the feed was made, epoch ms. */
export function dueCalendar(duties: readonly DutyDue[], at: number, reader: CalendarReader): string {
  return calendar(
    reader.words.calendar,
    duties.flatMap((duty) => dated(duty, reader)),
    at
  )
}

function dated(due: DutyDue, { words, language }: CalendarReader): readonly Dated[] {
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
      title: words.entry(title?.[language] ?? Object.values(title ?? {})[0] ?? procedure, machine),
      text: [words.state(due), words.source(source), words.labelFirst].join('\n')
    }
  ]
}
