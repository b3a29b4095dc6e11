import { useStore } from '../use-store.ts'
import type { RecordsDesk } from '../../app/records-desk.ts'
import { Symbol, type SymbolName } from '../parts/symbol.tsx'
import { mostUrgentOf, urgencyOf, type Urgency } from './urgency.ts'
import { useDesk } from './use-desk.ts'
import { useDueWords } from './use-reader.ts'

const SYMBOLS: Readonly<Record<Urgency, SymbolName>> = {
  forbidden: 'stop',
  overdue: 'bell',
  'start-now': 'bell',
  'under-way': 'hand',
  calm: 'tick',
  unknown: 'tick'
}

/** On a procedure's card: what its most urgent duty says; nothing where the schedule knows of none. */
export function DueMark({ procedure }: { readonly procedure: string }) {
  const desk = useDesk()
  return desk && <Mark desk={desk} procedure={procedure} />
}

function Mark({ desk, procedure }: { readonly desk: RecordsDesk; readonly procedure: string }) {
  const words = useDueWords()
  const due = useStore(desk.$due)
  const duty = due && mostUrgentOf(due.duties.filter((one) => one.procedure === procedure))
  if (!duty) return null
  const urgency = urgencyOf(duty)
  return (
    <span class={`due-mark ${urgency}`}>
      <Symbol name={SYMBOLS[urgency]} />
      {words.state(duty)}
    </span>
  )
}
