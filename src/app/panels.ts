/** What lies over the call on this device: one panel at a time. */
import { atom, type ReadableAtom } from 'nanostores'
import type { Call } from '../core/run/call.ts'
import type { ReadingUnit } from '../core/procedure/procedure.ts'
import { callKey } from '../core/talk/announce.ts'

export type Panel =
  | { readonly kind: 'none' }
  /** `unit`: another than the one that is asked for, where that may be. */
  | { readonly kind: 'number'; readonly typed: string; readonly unit: ReadingUnit | null }
  /** The other things that can be done or asked now. */
  | { readonly kind: 'ways' }
  | { readonly kind: 'keys' }
  | { readonly kind: 'guards' }
  | { readonly kind: 'transcript' }
  | { readonly kind: 'problem' }
  | { readonly kind: 'other-correction' }
  | { readonly kind: 'words' }
  | { readonly kind: 'hand-over' }
  | { readonly kind: 'crew' }
  /** Touch rests while somebody wipes the screen. */
  | { readonly kind: 'wipe' }
  | { readonly kind: 'end-early' }

/** A new call closes these; what someone reads or writes on purpose stays until they close it. */
const BELONG_TO_CALL: ReadonlySet<Panel['kind']> = new Set(['number', 'ways', 'other-correction'])

export interface Panels {
  readonly $panel: ReadableAtom<Panel>
  show(panel: Panel): void
  close(): void
}

export function openPanels($call: ReadableAtom<Call>): Panels {
  const $panel = atom<Panel>({ kind: 'none' })
  const close = () => $panel.set({ kind: 'none' })
  let known = callKey($call.get())
  $call.listen((call) => {
    const key = callKey(call)
    if (key !== known && BELONG_TO_CALL.has($panel.get().kind)) close()
    known = key
  })
  return { $panel, show: (panel) => $panel.set(panel), close }
}

export type NumberPanel = Extract<Panel, { kind: 'number' }>

const NOTHING_TYPED: NumberPanel = { kind: 'number', typed: '', unit: null }

/** The number being typed; nothing yet while its panel is closed. */
export function typedIn(panel: Panel): NumberPanel {
  return panel.kind === 'number' ? panel : NOTHING_TYPED
}
