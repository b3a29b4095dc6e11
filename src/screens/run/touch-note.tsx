import { useEffect, useMemo } from 'preact/hooks'
import { touchJudge, type TouchJudge } from '../../app/touch-judge.ts'
import { useStore } from '../use-store.ts'
import { useSurroundings } from '../surroundings.ts'
import { usePanelWords } from './use-panel-words.ts'

/** Keeps palms, cloths and drops from pressing anything while a run is open, and says when it did. */
export function TouchNote() {
  const { app, watchTouches } = useSurroundings()
  const { pixelsPerMm } = useStore(app.$settings)
  const judge = useMemo(() => touchJudge(pixelsPerMm), [pixelsPerMm])
  useEffect(() => {
    const stopping = watchTouches(judge)
    return () => void stopping.then((stop) => stop())
  }, [judge, watchTouches])
  return <Refused judge={judge} />
}

function Refused({ judge }: { readonly judge: TouchJudge }) {
  const refused = useStore(judge.$refused)
  const { touch } = usePanelWords()
  return (
    refused && (
      <p class="touch-note" role="status">
        {touch[refused]}
      </p>
    )
  )
}
