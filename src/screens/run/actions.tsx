import { useStore } from '../use-store.ts'
import type { ComponentChildren } from 'preact'
import { NEXT_KEYS } from '../../app/keys.ts'
import type { Call } from '../../core/run/call.ts'
import { correctionsFor, laneName, partOptions, textIn } from '../../core/talk/call-words.ts'
import type { Asking } from '../../core/talk/asking.ts'
import type { Intent, PlainIntent } from '../../core/talk/intent.ts'
import { Hold } from '../parts/hold.tsx'
import { Press } from '../parts/press.tsx'
import { useRun, useSurroundings, useWords } from '../surroundings.ts'
import { useTold } from './use-told.ts'

export interface ActionsProps {
  readonly call: Call
  readonly asking: Asking | null
}

/** What answers the call, large; saying it again and everything else beside it. */
export function Actions({ call, asking }: ActionsProps) {
  const { app, words, listen } = useSurroundings()
  const { panels } = useRun()
  const ears = useStore(app.$ears)
  const intend = useTouch()
  return (
    <div class="actions">
      {asking && asking.kind !== 'stepping' && call.kind !== 'alarm' ? (
        <AskingActions asking={asking} />
      ) : (
        <CallActions call={call} />
      )}
      <div class="action-row">
        <Press size="work" onPress={() => intend({ type: 'repeat' })}>
          {words.act.again}
        </Press>
        {ears.kind === 'off' && (
          <Press size="work" onPress={listen}>
            {words.run.listen}
          </Press>
        )}
        <Press size="work" onPress={() => panels.show({ kind: 'ways' })}>
          {words.act.other}
        </Press>
      </div>
    </div>
  )
}

function CallActions({ call }: { readonly call: Call }) {
  const words = useWords()
  const { panels, $holding } = useRun()
  const { manner } = useTold()
  const holding = useStore($holding)
  const intend = useTouch()
  switch (call.kind) {
    case 'caution':
      return <Main onPress={() => intend({ type: 'yes' })}>{words.act.understood}</Main>
    case 'paused':
      return <Main onPress={() => intend({ type: 'resume' })}>{words.act.carryOn}</Main>
    case 'stopped':
    case 'late':
      return <Corrections call={call} />
    case 'step': {
      const { check, confirm } = call.place.step
      if (check?.kind === 'yes-no') return <YesNo />
      if (check)
        return (
          <Main onPress={() => panels.show({ kind: 'number', typed: '', unit: null })}>{words.act.enterNumber}</Main>
        )
      if (confirm === null) return <Main onPress={() => intend({ type: 'done' })}>{words.act.done}</Main>
      return (
        <Hold
          keyDown={holding !== null && (NEXT_KEYS as readonly string[]).includes(holding.code)}
          onHeld={() => intend({ type: 'held' })}
        >
          {words.act.hold(textIn(confirm, manner))}
        </Hold>
      )
    }
    case 'all-waiting':
    case 'stand-by':
    case 'alarm':
    case 'not-started':
    case 'finished':
    case 'abandoned':
      return null
  }
}

function AskingActions({ asking }: { readonly asking: Exclude<Asking, { kind: 'stepping' }> }) {
  const told = useTold()
  const { course, manner } = told
  const intend = useTouch()
  switch (asking.kind) {
    case 'is-that-so':
    case 'take-back':
    case 'did-you-say':
    case 'is-done':
      return <YesNo />
    case 'which':
      return (
        <>
          {asking.between.map((intent) => (
            <Main key={JSON.stringify(intent)} onPress={() => intend(intent)}>
              {intent.type === 'lane'
                ? laneName(course, intent.lane, manner)
                : manner.words.phrase(intent.type as PlainIntent)}
            </Main>
          ))}
        </>
      )
    case 'which-part':
      return (
        <CorrectionList>
          {partOptions(asking.places, told).map((option, index) => (
            <Press key={option} size="work" onPress={() => intend({ type: 'number', value: index + 1, unit: null })}>
              {`${index + 1}. ${option}`}
            </Press>
          ))}
        </CorrectionList>
      )
    case 'which-correction':
      return (
        <CorrectionList>
          {asking.actions.map((action, index) => (
            <Press key={action} size="work" onPress={() => intend({ type: 'number', value: index + 1, unit: null })}>
              {`${index + 1}. ${action}`}
            </Press>
          ))}
        </CorrectionList>
      )
  }
}

function Corrections({ call }: { readonly call: Call }) {
  const told = useTold()
  const words = useWords()
  const { panels } = useRun()
  const intend = useTouch()
  const listed = correctionsFor(told, call)
  const other = () => panels.show({ kind: 'other-correction' })
  if (listed.length === 0) return <Main onPress={other}>{words.act.putRight}</Main>
  return (
    <CorrectionList>
      {listed.map((action, index) => (
        <Press key={action} size="work" onPress={() => intend({ type: 'correction', action })}>
          {`${index + 1}. ${action}`}
        </Press>
      ))}
      <Press size="work" onPress={other}>
        {words.act.somethingElse}
      </Press>
    </CorrectionList>
  )
}

function CorrectionList({ children }: { readonly children: ComponentChildren }) {
  return <div class="corrections">{children}</div>
}

function YesNo() {
  const words = useWords()
  const intend = useTouch()
  return (
    <>
      <Main onPress={() => intend({ type: 'yes' })}>{words.act.yes}</Main>
      <Main onPress={() => intend({ type: 'no' })}>{words.act.no}</Main>
    </>
  )
}

function Main({ onPress, children }: { readonly onPress: () => void; readonly children: ComponentChildren }) {
  return (
    <Press size="main" onPress={onPress}>
      {children}
    </Press>
  )
}

/** Sends what a touch means, unless the call is so young that the touch was meant for the one before. */
function useTouch(): (intent: Intent) => void {
  const { conductor, isSettled } = useRun()
  return (intent) => {
    if (isSettled()) void conductor.intend(intent, 'touch')
  }
}
