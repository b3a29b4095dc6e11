import type { ComponentChildren } from 'preact'
import { useFocusOnOpen } from '../parts/focus-on-open.ts'
import { Press } from '../parts/press.tsx'
import { useRun, useWords } from '../surroundings.ts'

export interface PanelFrameProps {
  readonly title: string
  readonly name: string
  readonly children: ComponentChildren
}

/** A panel over the call, with its title and the way out of it. */
export function PanelFrame({ title, name, children }: PanelFrameProps) {
  const { panels } = useRun()
  const words = useWords()
  const ref = useFocusOnOpen<HTMLElement>()
  return (
    <section ref={ref} tabIndex={-1} class={`panel ${name}`} role="dialog" aria-label={title}>
      <h2>{title}</h2>
      <Press size="work" onPress={panels.close}>
        {words.close}
      </Press>
      {/* By keyboard it is scrolled once it has the focus. */}
      <div class="panel-body" tabIndex={0} role="group" aria-label={title}>
        {children}
      </div>
    </section>
  )
}
