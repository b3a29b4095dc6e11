import { laneLetter } from '../../app/keys.ts'
import { textIn } from '../../core/talk/call-words.ts'
import { useRun } from '../surroundings.ts'
import { PanelFrame } from './panel-frame.tsx'
import { useTold } from './use-told.ts'
import { usePanelWords } from './use-panel-words.ts'

/** Every key and pedal, for those who forget. */
export function KeyList() {
  const { course } = useRun()
  const { manner } = useTold()
  const { keys: words } = usePanelWords()
  const lanes = course.lanes
    .filter(({ steps }) => steps.length > 0)
    .map(({ id, name }) => ({ id, name: textIn(name, manner) }))
  return (
    <PanelFrame title={words.title} name="keys">
      <p>
        <b>{words.alarm}</b>
      </p>
      <dl>
        {words.rows.map(([key, meaning]) => (
          <Row key={key} name={key} meaning={meaning} />
        ))}
        {lanes.map(({ id, name }, index) => {
          const letter = laneLetter(id, lanes)
          return (
            <Row
              key={id}
              name={[String(index + 1), ...(letter ? [letter.toUpperCase()] : [])].join(', ')}
              meaning={words.lane(name)}
            />
          )
        })}
      </dl>
    </PanelFrame>
  )
}

function Row({ name, meaning }: { readonly name: string; readonly meaning: string }) {
  return (
    <div class="key-row">
      <dt>{name}</dt>
      <dd>{meaning}</dd>
    </div>
  )
}
