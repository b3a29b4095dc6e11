import { answerOf, keysFor, otherUnit, typeKey, type NumberCheck, type NumberKey } from '../../app/number-entry.ts'
import type { NumberPanel } from '../../app/panels.ts'
import type { LaneId, ReadingUnit } from '../../core/procedure/procedure.ts'
import { textIn, unitName } from '../../core/talk/call-words.ts'
import { boundIn, otherScale } from '../../core/run/bound-in.ts'
import { expectedCount } from '../../core/run/judge-answer.ts'
import { useFocusOnOpen } from '../parts/focus-on-open.ts'
import { Press } from '../parts/press.tsx'
import { Symbol } from '../parts/symbol.tsx'
import { useRun, useWords } from '../surroundings.ts'
import { usePanelWords } from './use-panel-words.ts'
import { useTold } from './use-told.ts'

const UPPER = ['1', '2', '3', '4', '5'] as const
const LOWER = ['6', '7', '8', '9', '0'] as const

export interface NumberPadProps {
  readonly entry: NumberPanel
  readonly check: NumberCheck
  readonly lane: LaneId
}

/** Large keys for a reading or a count, with its unit and limits in sight. */
export function NumberPad({ entry, check, lane }: NumberPadProps) {
  const { typed } = entry
  const { conductor, panels } = useRun()
  const words = useWords()
  const { number } = usePanelWords()
  const ref = useFocusOnOpen<HTMLElement>()
  const { manner } = useTold()
  const allowed = keysFor(check)
  const answer = answerOf(typed, check, entry.unit)
  const unit = check.kind === 'reading' ? unitName(entry.unit ?? check.unit) : number.pieces
  const other = check.kind === 'reading' ? otherScale(entry.unit ?? check.unit) : null
  const press = (key: NumberKey) => panels.show({ ...entry, typed: typeKey(typed, key, check) })
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
        <Limits check={check} unit={entry.unit} lane={lane} />
      </div>
      <div class="number-keys">
        {UPPER.map(digit)}
        <Press size="work" label={number.erase} disabled={typed === ''} onPress={() => press('erase')}>
          <Symbol name="erase" />
        </Press>
        {LOWER.map(digit)}
        <Press size="work" label={words.close} onPress={panels.close}>
          <Symbol name="cross" />
        </Press>
        <div class="number-last">
          {allowed.point && (
            <Press size="work" label={number.point} onPress={() => press('.')}>
              .
            </Press>
          )}
          {allowed.minus && (
            <Press size="work" label={number.minus} onPress={() => press('-')}>
              −
            </Press>
          )}
          {other !== null && (
            <Press size="work" onPress={() => panels.show({ ...entry, unit: otherUnit(check, entry.unit) })}>
              {number.inUnit(unitName(other))}
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

interface LimitsProps extends Pick<NumberPadProps, 'check' | 'lane'> {
  readonly unit: ReadingUnit | null
}

function Limits({ check, unit, lane }: LimitsProps) {
  const { course, manner } = useTold()
  const { number } = usePanelWords()
  if (check.kind === 'count') {
    return <p class="number-limits">{number.expected(expectedCount(course.procedure, lane, check.parts))}</p>
  }
  const shown = (unit && boundIn(check, unit)) ?? check
  const limits = manner.words.limits(shown.min, shown.max, unitName(shown.unit))
  return <p class="number-limits">{manner.words.readingHint(limits, textIn(check.source, manner))}</p>
}
