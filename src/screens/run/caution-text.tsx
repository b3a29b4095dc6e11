import type { Caution } from '../../core/procedure/procedure.ts'
import { textIn, type Manner } from '../../core/talk/call-words.ts'
import { Symbol } from '../parts/symbol.tsx'

/** Cautions with their signal words (ANSI Z535.4): a notice, which is about no injury, carries no triangle. */
export function CautionText({ cautions, manner }: { readonly cautions: readonly Caution[]; readonly manner: Manner }) {
  return (
    <>
      {cautions.map(({ signal, hazard, consequence, avoid }, index) => (
        <div key={`${index} ${signal}`} class="caution">
          <p class={`signal ${signal}`}>
            {signal !== 'notice' && <Symbol name="triangle" />}
            {manner.words.signal(signal)}
          </p>
          <p class="hazard">{textIn(hazard, manner)}</p>
          <p class="consequence">
            {textIn(consequence, manner)} <b>{textIn(avoid, manner)}</b>
          </p>
        </div>
      ))}
    </>
  )
}
