import { useEffect, useState } from 'preact/hooks'
import { Hold } from '../parts/hold.tsx'
import { useRun } from '../surroundings.ts'
import { usePanelWords } from './use-panel-words.ts'

/** Long enough to wipe a tablet with a damp cloth and a dry one. */
const WIPE_S = 20

/** Lies over everything and takes no touch for a while, so that a cloth presses nothing. */
export function WipePanel() {
  const { panels } = useRun()
  const { wipe: words } = usePanelWords()
  const [left, setLeft] = useState(WIPE_S)
  useEffect(() => {
    const timer = setTimeout(() => (left > 1 ? setLeft(left - 1) : panels.close()), 1000)
    return () => clearTimeout(timer)
  }, [left, panels])
  return (
    <section class="wipe" role="dialog" aria-label={words.title}>
      <div class="wipe-box">
        <h2>{words.title}</h2>
        <p>{words.why}</p>
        <p class="wipe-left">{words.left(left)}</p>
        <Hold onHeld={panels.close}>{words.end}</Hold>
      </div>
    </section>
  )
}
