import type { Guard } from '../../app/guards.ts'
import { Press } from '../parts/press.tsx'
import { Symbol } from '../parts/symbol.tsx'
import { useSurroundings, useWords } from '../surroundings.ts'
import { PanelFrame } from './panel-frame.tsx'
import { useGuards } from './use-guards.ts'
import { useTold } from './use-told.ts'
import { usePanelWords } from './use-panel-words.ts'

/** Each guard with its state, why it is dead, and how to mend it. */
export function GuardPanel() {
  const { listen } = useSurroundings()
  const { guards: words } = useWords()
  const guards = useGuards()
  const earsDead = guards.some(({ name, health }) => name === 'ears' && health === 'dead')
  return (
    <PanelFrame title={words.title} name="guard-panel">
      <ul>
        {guards.map((guard) => (
          <GuardLine key={guard.name} guard={guard} />
        ))}
      </ul>
      {earsDead && (
        <Press size="work" onPress={listen}>
          {words.retryEars}
        </Press>
      )}
    </PanelFrame>
  )
}

function GuardLine({ guard }: { readonly guard: Guard }) {
  const { app } = useSurroundings()
  const { mend, whoseEars } = usePanelWords()
  const { guards: words } = useWords()
  if (guard.health !== 'dead') {
    return (
      <li>
        <Symbol name="tick" />
        <b>{words.name(guard.name)}</b> <span>{words[guard.health]}</span>{' '}
        {guard.name === 'ears' && <span>{whoseEars[app.whoseEars()]}</span>}
      </li>
    )
  }
  return (
    <li class="dead">
      <Symbol name="cross" />
      <b>{words.name(guard.name)}</b>{' '}
      <span>
        {words.dead}: {words.why(guard.fault)}. {mend(guard.fault)} <Amount guard={guard} />
      </span>
    </li>
  )
}

function Amount({ guard }: { readonly guard: Extract<Guard, { health: 'dead' }> }) {
  const { guards: words } = useWords()
  const { manner } = useTold()
  if (guard.name === 'server')
    return (
      <>
        {guard.said !== '' && <q>{guard.said}</q>} {words.unsent(guard.amount)}
      </>
    )
  if (guard.name === 'clock') return <>{words.moved(manner.words.duration(Math.abs(guard.amount)))}</>
  return null
}
