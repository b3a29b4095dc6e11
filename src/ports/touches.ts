/** Contacts with the screen as they come in; which of them count is the app's business. */

export interface Contact {
  /** Of this contact, from its beginning to its end (Pointer Events `pointerId`). */
  readonly id: number
  /** Steady clock, ms. */
  readonly at: number
  /** CSS pixels in the window. */
  readonly x: number
  readonly y: number
  /** The longer side of what touches, CSS pixels (Pointer Events `width` and `height`); 1 where the screen cannot tell. */
  readonly size: number
}

export interface TouchWatcher {
  /** False: the contact counts for nothing, and the page must not hear of it. */
  began(contact: Contact): boolean
  moved(contact: Contact): void
  /** False: no press comes of it. */
  ended(contact: Contact): boolean
  /** The browser took the contact for something else, such as scrolling. */
  lost(id: number): void
}

export interface Touches {
  /** Watches fingers, never mice or pens, until the returned function is called. */
  watch(watcher: TouchWatcher): () => void
}
