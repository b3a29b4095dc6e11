import type { Panel } from '../../app/panels.ts'
import type { Call } from '../../core/run/call.ts'
import type { PlainIntent } from '../../core/talk/intent.ts'
import { useFocusOnOpen } from '../parts/focus-on-open.ts'
import { Press } from '../parts/press.tsx'
import { useRun, useWords } from '../surroundings.ts'
import { usePanelWords } from './use-panel-words.ts'

type Way = { readonly text: string } & (
  | { readonly intent: PlainIntent }
  | { readonly panel: Exclude<Panel['kind'], 'number'> }
)

/** Everything that can be said or done besides answering the call. */
export function Ways({ call }: { readonly call: Call }) {
  const { conductor, panels, course } = useRun()
  const wears = course.procedure.parts.some(({ wear }) => wear !== undefined)
  const { close } = useWords()
  const { ways: words } = usePanelWords()
  const ways: readonly Way[] = [
    { text: words.repeat, intent: 'repeat' },
    { text: words.why, intent: 'why' },
    { text: words.more, intent: 'more' },
    { text: words.howLong, intent: 'how-long' },
    { text: words.quiet, intent: 'quiet' },
    { text: words.takeBack, intent: 'take-back' },
    call.kind === 'paused' ? { text: words.resume, intent: 'resume' } : { text: words.pause, intent: 'pause' },
    ...(wears ? [{ text: words.newPart, intent: 'new-part' } as const] : []),
    { text: words.problem, panel: 'problem' },
    { text: words.words, panel: 'words' },
    { text: words.crew, panel: 'crew' },
    { text: words.transcript, panel: 'transcript' },
    { text: words.wipe, panel: 'wipe' },
    { text: words.keys, panel: 'keys' },
    { text: words.guards, panel: 'guards' },
    { text: words.endEarly, panel: 'end-early' }
  ]
  const ref = useFocusOnOpen<HTMLElement>()
  function take(way: Way): void {
    if ('panel' in way) return panels.show({ kind: way.panel })
    panels.close()
    void conductor.intend({ type: way.intent }, 'touch')
  }
  return (
    <section ref={ref} tabIndex={-1} class="ways" role="dialog" aria-label={words.title}>
      {ways.map((way) => (
        <Press key={way.text} size="work" onPress={() => take(way)}>
          {way.text}
        </Press>
      ))}
      <Press size="work" onPress={panels.close}>
        {close}
      </Press>
    </section>
  )
}
