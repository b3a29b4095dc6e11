import type { ComponentChildren } from 'preact'
import type { Caution } from '../../core/procedure/procedure.ts'
import { textIn, type Manner } from '../../core/talk/call-words.ts'
import { Symbol } from '../parts/symbol.tsx'

export interface CautionTextProps {
  readonly cautions: readonly Caution[]
  readonly manner: Manner
  /** Stands in one line with the first signal word. */
  readonly before: ComponentChildren
}

/** Cautions with their signal words (ANSI Z535.4): a notice, which is about no injury, carries no triangle. */
export function CautionText({ cautions, manner, before }: CautionTextProps) {
  return (
    <>
      {cautions.map(({ signal, hazard, consequence, avoid }, index) => (
        <div key={`${index} ${signal}`} class="caution">
          <div>
            {index === 0 && before}
            <p class={`signal ${signal}`}>
              {signal !== 'notice' && <Symbol name="triangle" />}
              {manner.words.signal(signal)}
            </p>
          </div>
          {index === 0 ? (
            <h1 class="hazard">{textIn(hazard, manner)}</h1>
          ) : (
            <h2 class="hazard">{textIn(hazard, manner)}</h2>
          )}
          <p class="consequence">
            {textIn(consequence, manner)} <b>{textIn(avoid, manner)}</b>
          </p>
        </div>
      ))}
    </>
  )
}
