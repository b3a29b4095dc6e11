import { useStore } from '../use-store.ts'
import type { ComponentChildren } from 'preact'
import type { LinkState } from '../../app/outbox.ts'
import { summarise, type RunSummary } from '../../app/run-summary.ts'
import { answerText, laneName, partName, stepNamed, textIn } from '../../core/talk/call-words.ts'
import { Press } from '../parts/press.tsx'
import { Symbol } from '../parts/symbol.tsx'
import { useRun, useSurroundings } from '../surroundings.ts'
import type { PanelWords } from './panel-words.en.ts'
import { Trouble } from './trouble.tsx'
import { usePanelWords } from './use-panel-words.ts'
import { useTold } from './use-told.ts'

/** The run in figures once it is over. */
export function Finished({ ended }: { readonly ended: boolean }) {
  const { app } = useSurroundings()
  const { session, course } = useRun()
  const { events } = useStore(session.$state)
  const { manner } = useTold()
  const link = useStore(app.$link)
  const summary = summarise(events)
  const { finished } = usePanelWords()
  return (
    <main class="page finished">
      <Trouble />
      <header class="page-head">
        <p class="brand">{textIn(course.procedure.title, manner)}</p>
        <h1>
          <Symbol name={ended ? 'stop' : 'tick'} />
          {ended ? finished.ended : finished.complete}
        </h1>
        <p class={`reached ${link.kind}`} role="status">
          {linkText(link, finished)}
        </p>
      </header>
      <dl class="figures">
        <Figure name={finished.duration}>{manner.words.duration(summary.durationMs)}</Figure>
        <Figure name={finished.operators}>{summary.operators.join(', ')}</Figure>
        <Figure name={finished.refused}>{summary.refused}</Figure>
        <Figure name={finished.takenBack}>{summary.takenBack}</Figure>
        {summary.lost > 0 && <Figure name={finished.lost}>{summary.lost}</Figure>}
        <Figure name={finished.readings}>
          <Answers answers={summary.answers} />
        </Figure>
        <Figure name={finished.corrections}>
          <Told items={summary.corrections.map(({ lane, action }) => ({ lane, text: action }))} />
        </Figure>
        {summary.newParts.length > 0 && (
          <Figure name={finished.newParts}>
            <Told
              items={summary.newParts.map(({ lane, part }) => ({
                lane,
                text: partName(course.procedure, part, manner)
              }))}
            />
          </Figure>
        )}
        <Figure name={finished.problems}>
          <Told items={summary.problems} />
        </Figure>
      </dl>
      <Press size="main" onPress={() => void app.backToChoice()}>
        {finished.back}
      </Press>
    </main>
  )
}

function Figure({ name, children }: { readonly name: string; readonly children: ComponentChildren }) {
  return (
    <div class="figure">
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  )
}

function Answers({ answers }: Pick<RunSummary, 'answers'>) {
  const { course, manner } = useTold()
  const { finished: words } = usePanelWords()
  if (answers.length === 0) return <>{words.none}</>
  return (
    <ul>
      {answers.map(({ lane, step, answer, good }, index) => {
        const check = stepNamed(course, lane, step)?.check
        return (
          <li key={`${index} ${step}`}>
            {laneName(course, lane, manner)}, {check?.kind === 'reading' ? words.reading(check.reading) : words.count}:{' '}
            <b>{answerText(answer, manner.words)}</b>{' '}
            <span class={good ? 'good' : 'bad'}>{good ? words.good : words.bad}</span>
          </li>
        )
      })}
    </ul>
  )
}

function Told({ items }: { readonly items: readonly { readonly lane: string; readonly text: string }[] }) {
  const { course, manner } = useTold()
  const { finished: words } = usePanelWords()
  if (items.length === 0) return <>{words.none}</>
  return (
    <ul>
      {items.map(({ lane, text }, index) => (
        <li key={`${index} ${text}`}>
          {laneName(course, lane, manner)}: {text}
        </li>
      ))}
    </ul>
  )
}

function linkText(link: LinkState, words: PanelWords['finished']): string {
  switch (link.kind) {
    case 'linked':
      return words.sent
    case 'unknown':
      return words.sending
    case 'away':
      return words.unsent(link.unsent)
    case 'failing':
      return words.failing(link.why, link.unsent)
    case 'rejecting':
      return words.rejecting(link.why)
  }
}
