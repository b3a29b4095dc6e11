/** What every part of the workshop's editor can reach. */
import { createContext } from 'preact'
import { useContext } from 'preact/hooks'
import type { DraftEditor, DraftState } from '../../app/workshop/draft-editor.ts'
import type { Workshop } from '../../app/workshop/workshop.ts'
import type { DraftFinding } from '../../core/procedure/draft/check-draft.ts'
import type { Path } from '../../core/procedure/edit/edit.ts'

export type Tab = 'steps' | 'head' | 'text' | 'try' | 'changes' | 'publish'

/** A step, or a stage when `step` is null. */
export interface Chosen {
  readonly stage: number
  readonly step: number | null
}

export interface Desk {
  readonly workshop: Workshop
  readonly editor: DraftEditor
  readonly draft: DraftState
  /** What the draft holds, as its author wrote it. */
  readonly value: unknown
  readonly languages: readonly string[]
  /** In which of them lists and names are shown: that of the page, where the procedure has it. */
  readonly reading: string
  readonly findings: readonly DraftFinding[]
  readonly chosen: Chosen
  readonly choose: (chosen: Chosen) => void
  readonly tab: Tab
  readonly show: (tab: Tab) => void
  /** A line that the text view should go to; null when there is none. */
  readonly line: number | null
  readonly goTo: (finding: DraftFinding) => void
}

export const DeskContext = createContext<Desk | null>(null)

export function useDesk(): Desk {
  const found = useContext(DeskContext)
  if (!found) throw new Error('This part must stand inside the editor.')
  return found
}

export function stepPath({ stage, step }: Chosen): Path {
  return step === null ? ['stages', stage] : ['stages', stage, 'steps', step]
}

/** Whether something was found in this place or below it. */
export function isBelow(path: Path, of: Path): boolean {
  return of.every((key, index) => String(path[index]) === String(key))
}
