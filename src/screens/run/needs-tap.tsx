import { useSurroundings } from '../surroundings.ts'

/** After a reload: sound, ears and screen lock wait for a touch. The state of the run stays visible behind. */
export function NeedsTap() {
  const { app, words } = useSurroundings()
  return (
    <button type="button" class="needs-tap" onClick={() => app.unlock()}>
      <span class="needs-tap-box">
        <b>{words.needsTap.title}</b>
        <span>{words.needsTap.why}</span>
      </span>
    </button>
  )
}
