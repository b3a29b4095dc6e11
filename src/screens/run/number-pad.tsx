import { answerOf, keysFor, typeKey, type NumberCheck, type NumberKey } from '../../app/number-entry.ts'
import type { LaneId } from '../../core/procedure/procedure.ts'
import { textIn, unitName } from '../../core/talk/call-words.ts'
import { expectedCount } from '../../core/run/judge-answer.ts'
import { useFocusOnOpen } from '../parts/focus-on-open.ts'
import { Press } from '../parts/press.tsx'
import { Symbol } from '../parts/symbol.tsx'
import { useRun, useWords } from '../surroundings.ts'
import { useTold } from './use-told.ts'

const UPPER = ['1', '2', '3', '4', '5'] as const
const LOWER = ['6', '7', '8', '9', '0'] as const

export interface NumberPadProps {
  readonly typed: string
  readonly check: NumberCheck
  readonly lane: LaneId
}

/** Large keys for a reading or a count, with its unit and limits in sight. */
export function NumberPad({ typed, check, lane }: NumberPadProps) {
  const { conductor, panels } = useRun()
  const words = useWords()
  const ref = useFocusOnOpen<HTMLElement>()
  const { manner } = useTold()
  const allowed = keysFor(check)
  const answer = answerOf(typed, check)
  const unit = check.kind === 'reading' ? unitName(check.unit) : words.number.pieces
  const press = (key: NumberKey) => panels.show({ kind: 'number', typed: typeKey(typed, key, check) })
  const digit = (key: NumberKey) => (
    <Press key={key} size="work" onPress={() => press(key)}>
      {key}
    </Press>
  )
  return (
    <section ref={ref} tabIndex={-1} class="number-pad" role="dialog" aria-label={textIn(check.ask, manner)}>
      <div class="number-side">
        <p class="number-question">{textIn(check.ask, manner)}</p>
        <p class="number-shown" role="status">
          <span class={typed === '' ? 'number-empty' : ''}>{typed === '' ? '–' : typed.replace('-', '−')}</span>{' '}
          <small>{unit}</small>
        </p>
        <Limits check={check} lane={lane} />
      </div>
      <div class="number-keys">
        {UPPER.map(digit)}
        <Press size="work" label={words.number.erase} disabled={typed === ''} onPress={() => press('erase')}>
          <Symbol name="erase" />
        </Press>
        {LOWER.map(digit)}
        <Press size="work" label={words.close} onPress={panels.close}>
          <Symbol name="cross" />
        </Press>
        <div class="number-last">
          {allowed.point && (
            <Press size="work" label={words.number.point} onPress={() => press('.')}>
              .
            </Press>
          )}
          {allowed.minus && (
            <Press size="work" label={words.number.minus} onPress={() => press('-')}>
              −
            </Press>
          )}
          <Press
            size="main"
            disabled={answer === null}
            onPress={() => void (answer && conductor.intend({ type: 'answer', answer }, 'touch'))}
          >
            {words.act.record}
          </Press>
        </div>
      </div>
    </section>
  )
}

function Limits({ check, lane }: { readonly check: NumberCheck; readonly lane: LaneId }) {
  const { course, manner } = useTold()
  const words = useWords()
  if (check.kind === 'count') {
    return <p class="number-limits">{words.number.expected(expectedCount(course.procedure, lane, check.parts))}</p>
  }
  const limits = manner.words.limits(check.min, check.max, unitName(check.unit))
  return <p class="number-limits">{manner.words.readingHint(limits, textIn(check.source, manner))}</p>
}
