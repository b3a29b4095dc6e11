import { shopDateTime } from '../../app/shop-time.ts'
import type { DutyDue } from '../../core/due/due-now.ts'
import type { DueWords } from '../../core/due/words.en.ts'
import { textFor } from '../../core/talk/quantities.ts'
import type { DueShown } from '../../app/records-desk.ts'
import { useSurroundings } from '../surroundings.ts'
import { useDueWords, useReader } from './use-reader.ts'
import { byUrgency, isUrgent } from './urgency.ts'
import { useRecordsWords } from './use-records-words.ts'

/** What is due at each machine, the urgent first; what is in order stands last. */
export function DueList({ due, urgentOnly = false }: { readonly due: DueShown; readonly urgentOnly?: boolean }) {
  const { zone } = useSurroundings()
  const texts = useRecordsWords()
  const dueWords = useDueWords()
  const { words, language } = useReader()
  const duties = byUrgency(due.duties).filter((duty) => !urgentOnly || isUrgent(duty))
  if (duties.length === 0 && due.wear.length === 0) return null
  return (
    <section class="due" aria-labelledby="due-title">
      <h2 id="due-title">{texts.today}</h2>
      <ul>
        {duties.map((duty) => (
          <li key={`${duty.procedure} ${duty.duty}`} class={`due-one ${duty.state.kind}`}>
            <p class="due-state">{dueWords.state(duty)}</p>
            <div>
              <p>
                <b>{duty.title ? textFor(duty.title, language) : duty.procedure}</b>,{' '}
                {[duty.machine, ...duty.sides.map((side) => textFor(side, language))].join(', ')}
              </p>
              <p>{times(duty, zone, dueWords, language)}</p>
              {!urgentOnly && <p class="due-source">{dueWords.source(duty.source)}</p>}
            </div>
          </li>
        ))}
        {due.wear.map(({ machine, part, lane, worn }) => (
          <li
            key={`${machine} ${textFor(part, language)} ${lane}`}
            class={`due-one ${worn === 'due' ? 'overdue' : 'in-order'}`}
          >
            <p>
              {machine}: {texts.worn(textFor(part, language), words.lane(lane), worn)}
            </p>
          </li>
        ))}
      </ul>
    </section>
  )
}

function times({ state }: DutyDue, zone: string, dueWords: DueWords, language: string): string {
  const parts = [
    'startBy' in state && state.startBy !== null ? dueWords.startBy(shopDateTime(state.startBy, zone, language)) : null,
    'dueAt' in state && state.dueAt !== null ? dueWords.due(shopDateTime(state.dueAt, zone, language)) : null
  ]
  return parts.filter((part) => part !== null).join(', ')
}
