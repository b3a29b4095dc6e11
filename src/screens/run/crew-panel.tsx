import { useStore } from '../use-store.ts'
import { useState } from 'preact/hooks'
import { givenName } from '../../app/given-name.ts'
import type { Hands } from '../../core/run/run.ts'
import { laneName } from '../../core/talk/call-words.ts'
import { Field } from '../parts/field.tsx'
import { Hold } from '../parts/hold.tsx'
import { LanguageChoice } from '../parts/language-choice.tsx'
import { later } from '../parts/later.tsx'
import { Press } from '../parts/press.tsx'
import { useRun, useSurroundings } from '../surroundings.ts'
import { PanelFrame } from './panel-frame.tsx'
import { useTold } from './use-told.ts'
import { usePanelWords } from './use-panel-words.ts'

const Names = later(async () => (await import('../people/names.tsx')).Names)

/** Who is at work; a second device joins here, and whoever has gone is struck off. */
export function CrewPanel() {
  const { session, panels } = useRun()
  const words = usePanelWords()
  const { run } = useTold()
  const isMember = run.crew.some(({ device }) => device === session.device)
  return (
    <PanelFrame title={words.crew.title} name="form">
      <ul class="crew">
        {run.crew.map((hands) => (
          <Member key={hands.device} hands={hands} leavable={run.crew.length > 1} />
        ))}
      </ul>
      {isMember ? (
        <div class="form-fields">
          <p class="form-note">{run.crew.length === 1 && words.crew.how}</p>
          <Press size="work" onPress={() => panels.show({ kind: 'hand-over' })}>
            {words.handOver.title}
          </Press>
        </div>
      ) : (
        <Join onOver={panels.close} />
      )}
    </PanelFrame>
  )
}

function Member({ hands, leavable }: { readonly hands: Hands; readonly leavable: boolean }) {
  const { conductor, session } = useRun()
  const words = usePanelWords()
  const { course, manner } = useTold()
  const isMine = hands.device === session.device
  return (
    <li>
      <b>{hands.name}</b> {hands.focus !== null && laneName(course, hands.focus, manner)}{' '}
      {isMine && <i>{words.crew.thisDevice}</i>}
      {leavable && (
        <Hold onHeld={() => void conductor.carryOut({ type: 'leave', hands: hands.device }, 'touch')}>
          {words.crew.gone(hands.name)}
        </Hold>
      )}
    </li>
  )
}

function Join({ onOver }: { readonly onOver: () => void }) {
  const { conductor } = useRun()
  const { app } = useSurroundings()
  const words = usePanelWords()
  const settings = useStore(app.$settings)
  const [name, setName] = useState(settings.operator)
  return (
    <div class="form-fields">
      <p class="form-note">{words.crew.elsewhere}</p>
      <Names
        name={name}
        person={settings.person}
        onChoose={(person) => {
          app.$settings.set({ ...app.$settings.get(), operator: person.name, person })
          setName(person.name)
        }}
      />
      <Field label={words.crew.name} value={name} onValue={setName} longest={60} />
      <LanguageChoice operator={name} />
      <Press
        size="main"
        disabled={name.trim() === ''}
        onPress={() => {
          onOver()
          void conductor.carryOut({ type: 'join', name: name.trim(), ...givenName(settings, name, app.now()) }, 'touch')
        }}
      >
        {words.crew.join}
      </Press>
      <Press size="work" onPress={onOver}>
        {words.crew.carryOn}
      </Press>
    </div>
  )
}
