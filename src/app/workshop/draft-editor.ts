/**
 * One draft being written. Its text is the truth; the form, the text view and undo change it and nothing else. Each
 * change is kept on this device at once and saved to the server soon after.
 */
import { atom, type ReadableAtom } from 'nanostores'
import { begun, redone, undone, written, type History } from '../../core/procedure/edit/history.ts'
import type { Edit } from '../../core/procedure/edit/edit.ts'
import type { ShopRules } from '../../core/sanitizer/shop-rules.ts'
import type { Ports } from '../ports.ts'
import type { Draft, DraftBench, ReadDraft, WorkshopLink } from '../../ports/workshop.ts'
import { keepDeviceDraft } from './device-draft.ts'

/** From the last change to the saving of it, ms. */
const SAVE_AFTER_MS = 1500
const TRY_AGAIN_MS = 15_000

export type Saving =
  | { readonly kind: 'saved'; readonly at: number | null }
  | { readonly kind: 'unsaved' }
  /** The server is away or in trouble: this device has it, and tries again. */
  | { readonly kind: 'only-here' }
  /** Not even this device could keep it. */
  | { readonly kind: 'not-kept'; readonly detail: string }
  /** Somebody else saved, published or threw it away meanwhile. */
  | { readonly kind: 'overtaken'; readonly theirs: Draft | null }

export interface DraftState {
  readonly text: string
  /** What the text held when it was last read; the form shows it. Null before, or when it is no YAML. */
  readonly read: ReadDraft | null
  /** Whether `read` is of this very text. */
  readonly isRead: boolean
  readonly canUndo: boolean
  readonly canRedo: boolean
  readonly saving: Saving
}

export interface DraftEditor {
  readonly id: string
  /** Hash of the version it was begun from. */
  readonly base: string | null
  readonly $draft: ReadableAtom<DraftState>
  /** All of them or none; resolves with whether they could be made. */
  edit(...edits: readonly Edit[]): Promise<boolean>
  write(text: string): void
  /** After the edits that were made before, and what was written meanwhile. */
  undo(): Promise<void>
  redo(): Promise<void>
  /** The other text is a step back or forward away, whatever is chosen. */
  settle(choice: 'mine' | 'theirs'): Promise<void>
  /** Saves what is not saved; null when the server does not have it now. */
  saved(): Promise<number | null>
  /** Resolves when the server has answered about what it did not have, or did not. */
  close(): Promise<void>
}

export interface EditorParts {
  readonly ports: Pick<Ports, 'clock' | 'log'>
  readonly link: WorkshopLink
  readonly bench: DraftBench
  readonly shop: ShopRules
  readonly by: () => string
}

export interface DraftBegun {
  readonly id: string
  readonly base: string | null
  readonly text: string
  /** The server's, 0 where it has none. */
  readonly revision: number
  /** Whether the server has this text. */
  readonly isSaved: boolean
}

export function openDraft({ ports, link, bench, shop, by }: EditorParts, draft: DraftBegun): DraftEditor {
  const { id, base } = draft
  let history: History = begun(draft.text)
  let revision = draft.revision
  let saving: Promise<void> = Promise.resolve()
  let editing: Promise<unknown> = Promise.resolve()
  /** What the server has, as far as is known; what is to be saved follows from it, never from what is shown. */
  let savedText: string | null = draft.isSaved ? draft.text : null
  let cancelSave = () => {}
  let isClosed = false
  const $draft = atom<DraftState>({
    text: draft.text,
    read: null,
    isRead: false,
    canUndo: false,
    canRedo: false,
    saving: draft.isSaved ? { kind: 'saved', at: null } : { kind: 'unsaved' }
  })

  function show(changed: Partial<DraftState>): void {
    $draft.set({ ...$draft.get(), ...changed })
  }

  function isWithServer(): boolean {
    return history.present === savedText && $draft.get().saving.kind !== 'overtaken'
  }

  async function read(text: string): Promise<void> {
    const found = await bench.read(text, shop)
    // An answer to an older text would show what is no longer there.
    if (found && history.present === text && !isClosed) show({ read: found, isRead: true })
  }

  function go(to: History): void {
    if (to === history) return
    const { present: text } = to
    history = to
    const overtaken = $draft.get().saving.kind === 'overtaken'
    show({
      text,
      isRead: false,
      canUndo: to.past.length > 0,
      canRedo: to.future.length > 0,
      ...(overtaken ? {} : { saving: { kind: 'unsaved' } as const })
    })
    void read(text)
    void keepHere(false)
    if (overtaken) return
    // What is typed last may come when its field, and the draft with it, are left.
    if (isClosed) void save()
    else saveAfter(SAVE_AFTER_MS)
  }

  async function keepHere(isSaved: boolean): Promise<void> {
    const detail = await keepDeviceDraft(ports.log, id, { text: history.present, revision, base, isSaved })
    // What the server has is lost with no device.
    if (detail !== null && history.present !== savedText) show({ saving: { kind: 'not-kept', detail } })
  }

  function saveAfter(ms: number): void {
    cancelSave()
    if (isClosed) return
    cancelSave = ports.clock.after(ms, () => void save())
  }

  function save(): Promise<void> {
    cancelSave()
    saving = saving.then(saveNow)
    return saving
  }

  async function saveNow(): Promise<void> {
    const text = history.present
    const { saving: state } = $draft.get()
    if (state.kind === 'overtaken') return
    if (text === savedText) {
      // Gone back to what the server has.
      if (state.kind !== 'saved') show({ saving: { kind: 'saved', at: null } })
      return keepHere(true)
    }
    const answered = await link.save(id, { text, by: by(), base, after: revision })
    if (answered.kind === 'answered') {
      revision = answered.value.revision
      savedText = text
      const isLast = history.present === text
      if (isLast) show({ saving: { kind: 'saved', at: answered.value.at } })
      return keepHere(isLast)
    }
    if (answered.failure.kind === 'rejected' && answered.failure.status === 409) return meet()
    show({ saving: { kind: 'only-here' } })
    saveAfter(TRY_AGAIN_MS)
  }

  /** Looks at what somebody else has done. */
  async function meet(): Promise<void> {
    const answered = await link.draft(id)
    if (answered.kind === 'answered') {
      // An answer that was lost on its way: it is ours.
      if (answered.value.text === history.present) {
        revision = answered.value.revision
        savedText = answered.value.text
        show({ saving: { kind: 'saved', at: answered.value.at } })
        return keepHere(true)
      }
      return show({ saving: { kind: 'overtaken', theirs: answered.value } })
    }
    if (answered.failure.kind === 'rejected' && answered.failure.status === 404)
      return show({ saving: { kind: 'overtaken', theirs: null } })
    show({ saving: { kind: 'only-here' } })
    saveAfter(TRY_AGAIN_MS)
  }

  /** The bench takes its time over an edit: what is asked for after it must not come before it. */
  function inTurn<Result>(act: () => Result | Promise<Result>): Promise<Result> {
    const done = editing.then(act)
    editing = done
    return done
  }

  async function make(edits: readonly Edit[]): Promise<boolean> {
    const from = history.present
    const edited = await bench.edit(from, edits)
    if (edited?.kind !== 'edited') return false
    // Written as a whole meanwhile: the edit is one of the new text.
    if (history.present !== from) return make(edits)
    go(written(history, edited.text))
    return true
  }

  void read(draft.text)
  if (!draft.isSaved) {
    void keepHere(false)
    saveAfter(0)
  }
  return {
    id,
    base,
    $draft,
    edit: (...edits) => inTurn(() => make(edits)),
    write: (text) => go(written(history, text)),
    undo: () => inTurn(() => go(undone(history))),
    redo: () => inTurn(() => go(redone(history))),
    async settle(choice) {
      const { saving: state } = $draft.get()
      if (state.kind !== 'overtaken') return
      const { theirs } = state
      revision = theirs?.revision ?? 0
      savedText = theirs?.text ?? null
      show({ saving: { kind: 'unsaved' } })
      if (choice === 'theirs' && theirs) {
        go(written(history, theirs.text))
        show({ saving: { kind: 'saved', at: theirs.at } })
        await keepHere(true)
        return
      }
      if (theirs) {
        const mine = history.present
        history = written(written(history, theirs.text), mine)
        show({ canUndo: true, canRedo: false })
      }
      await save()
    },
    async saved() {
      await editing
      await save()
      return isWithServer() ? revision : null
    },
    async close() {
      isClosed = true
      cancelSave()
      if (!isWithServer()) await save()
    }
  }
}
