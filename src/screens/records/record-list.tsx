import { useState } from 'preact/hooks'
import { useStore } from '../use-store.ts'
import type { Desk, RecordsDesk, Row } from '../../app/records-desk.ts'
import { serverSaid } from '../../app/server-said.ts'
import { shopDateTime } from '../../app/shop-time.ts'
import { textFor } from '../../core/talk/quantities.ts'
import { shopDay } from '../../core/time/shop-day.ts'
import { Field } from '../parts/field.tsx'
import { Press } from '../parts/press.tsx'
import { Pick } from '../parts/pick.tsx'
import { DueList } from './due-list.tsx'
import { useReader } from './use-reader.ts'
import { StandingNotes } from './standing-notes.tsx'
import { TakeAway } from './take-away.tsx'
import { useRecordsWords } from './use-records-words.ts'
import type { RecordsScreenWords } from './words.en.ts'

/** More than a supervisor looks through at once. */
const MOST_TOGETHER = 62
const ALL = ''

export interface RecordListProps {
  readonly desk: RecordsDesk
  readonly list: Extract<Desk, { kind: 'list' }>
}

/** What was done, the last begun first, narrowed down to a machine and days. */
export function RecordList({ desk, list: { rows, more, failure } }: RecordListProps) {
  const texts = useRecordsWords()
  const due = useStore(desk.$due)
  const [machine, setMachine] = useState(ALL)
  const [from, setFrom] = useState('')
  const [to, setTo] = useState('')
  const machines = [...new Set(rows.map(({ listing }) => listing.machine))].sort()
  const chosen = rows.filter((row) => isChosen(row, { machine, from, to }))
  return (
    <>
      <StandingNotes desk={desk} />
      {due !== null && <DueList due={due} />}
      {failure !== null && (
        <p class="state-note" role="alert">
          {texts.onlyDevice(failure.kind === 'unreachable' ? texts.away : texts.failed(serverSaid(failure)))}
        </p>
      )}
      <section class="narrow">
        <Pick
          label={texts.machine}
          value={machine}
          options={[[ALL, texts.all], ...machines.map((name) => [name, name] as const)]}
          onValue={setMachine}
        />
        <Field label={texts.from} value={from} onValue={setFrom} longest={10} {...hintFor(from, texts)} />
        <Field label={texts.to} value={to} onValue={setTo} longest={10} {...hintFor(to, texts)} />
      </section>
      <Press onPress={() => void desk.lookBack(machine)}>{texts.lookBack}</Press>
      {chosen.length === 0 ? (
        <p class="state-note">{texts.none}</p>
      ) : (
        <>
          <Press
            disabled={chosen.length > MOST_TOGETHER}
            onPress={() => void desk.show(chosen.map(({ listing }) => listing))}
          >
            {chosen.length > MOST_TOGETHER ? texts.tooMany(MOST_TOGETHER) : texts.showThese(chosen.length)}
          </Press>
          <ul class="record-rows">
            {chosen.map((row) => (
              <RecordRow key={row.listing.runId} row={row} onOpen={() => void desk.show([row.listing])} />
            ))}
          </ul>
        </>
      )}
      {more > 0 && <p class="state-note">{texts.more(more)}</p>}
      <TakeAway desk={desk} rows={chosen.map(({ listing }) => listing)} query={queryOf({ machine, from, to })} />
    </>
  )
}

interface Narrowed {
  readonly machine: string
  readonly from: string
  readonly to: string
}

const DAY = /^\d{4}-\d\d-\d\d$/

function isChosen({ listing }: Row, { machine, from, to }: Narrowed): boolean {
  const day = shopDay(listing.startedAt, listing.zone) ?? ''
  return (
    (machine === ALL || listing.machine === machine) && (!DAY.test(from) || day >= from) && (!DAY.test(to) || day <= to)
  )
}

function queryOf(narrowed: Narrowed): string {
  const { machine, from, to } = narrowed
  return new URLSearchParams({
    ...(machine === ALL ? {} : { machine }),
    ...(DAY.test(from) ? { from } : {}),
    ...(DAY.test(to) ? { to } : {})
  }).toString()
}

function hintFor(day: string, texts: RecordsScreenWords): { readonly hint?: string } {
  return day === '' || DAY.test(day) ? {} : { hint: texts.dayHint }
}

function RecordRow({ row: { listing, onlyHere }, onOpen }: { readonly row: Row; readonly onOpen: () => void }) {
  const { title, procedureId, machine, operator, startedAt, zone, status, review } = listing
  const texts = useRecordsWords()
  const { words, language } = useReader()
  return (
    <li class={`record-row ${review}`}>
      <div>
        <p class="open-run-title">{title ? textFor(title, language) : procedureId}</p>
        <p>{machine}</p>
        <p>{texts.begunBy(operator, shopDateTime(startedAt, zone, language))}</p>
        <p class="record-state">
          {words.status(status)}, {words.review(review)}
          {onlyHere && `, ${texts.onlyHere}`}
        </p>
      </div>
      <Press size="work" onPress={onOpen}>
        {texts.open}
      </Press>
    </li>
  )
}
