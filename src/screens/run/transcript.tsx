import { useStore } from '../use-store.ts'
import { useEffect, useRef } from 'preact/hooks'
import { timeOfDay } from '../../core/talk/time-of-day.ts'
import { useRun, useSurroundings } from '../surroundings.ts'
import { useLanguage } from '../texts.ts'
import { PanelFrame } from './panel-frame.tsx'
import { usePanelWords } from './use-panel-words.ts'

/** Captions of everything said and heard, the newest at the end and in sight. */
export function TranscriptPanel() {
  const { conductor, session } = useRun()
  const { zone } = useSurroundings()
  const language = useLanguage()
  const words = usePanelWords()
  const transcript = useStore(conductor.$transcript)
  const end = useRef<HTMLLIElement | null>(null)
  useEffect(() => end.current?.scrollIntoView({ block: 'end' }), [transcript])
  const runZone = session.$state.get().run.from?.zone ?? zone
  return (
    <PanelFrame title={words.transcript.title} name="transcript">
      {transcript.length === 0 && <p>{words.transcript.none}</p>}
      <ol>
        {transcript.map(({ at, who, text }, index) => (
          <li key={`${at} ${index}`} class={who}>
            <time>{timeOfDay(at, runZone, language)}</time>
            <b>{words.transcript[who]}</b>
            <span>{text ?? words.transcript.notUnderstood}</span>
          </li>
        ))}
        <li ref={end} aria-hidden="true" />
      </ol>
    </PanelFrame>
  )
}
