import { listeners } from './listeners.ts'

/**
 * `shown-again` is a page taken back whole from the back-forward cache; `frozen` and `resumed` come from Chromium only
 * (Page Lifecycle). After `visible`, `shown-again` or `resumed`, any amount of time may have passed.
 */
export type PageMoment = 'visible' | 'hidden' | 'shown-again' | 'frozen' | 'resumed'

export interface PageVisibility {
  visible(): boolean
  onMoment(tell: (moment: PageMoment) => void): () => void
}

export interface Page {
  readonly document: EventTarget & { readonly visibilityState: string }
  readonly window: EventTarget
}

export function pageVisibility(page: Page = globalThis): PageVisibility {
  const told = listeners<PageMoment>()
  const visible = () => page.document.visibilityState === 'visible'
  let last = visible()

  page.document.addEventListener('visibilitychange', () => {
    if (visible() === last) return
    last = visible()
    told.tell(last ? 'visible' : 'hidden')
  })
  page.document.addEventListener('freeze', () => told.tell('frozen'))
  page.document.addEventListener('resume', () => told.tell('resumed'))
  page.window.addEventListener('pageshow', (event) => {
    if ((event as PageTransitionEvent).persisted) told.tell('shown-again')
  })

  return { visible, onMoment: told.add }
}
