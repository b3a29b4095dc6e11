import { useStore } from '../use-store.ts'
import { Symbol } from '../parts/symbol.tsx'
import { useRun, useWords } from '../surroundings.ts'

/** The last thing said or pressed was not kept: nothing happened, and that must be seen. */
export function Trouble() {
  const { conductor } = useRun()
  const words = useWords()
  const trouble = useStore(conductor.$trouble)
  if (!trouble) return null
  return (
    <p class="trouble" role="alert">
      <Symbol name="cross" />
      <b>{words.failure.notKept}</b> {words.failure[trouble.reason]}.
    </p>
  )
}
