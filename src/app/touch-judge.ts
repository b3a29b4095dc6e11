/** Tells a finger that means something from palms, wet cloths and drops. Figures: common practice, no source. */
import { atom, type ReadableAtom } from 'nanostores'
import type { Contact, TouchWatcher } from '../ports/touches.ts'

/** Why a contact did not count. */
export type TouchRefusal = 'palm' | 'several' | 'wiping' | 'many'

/** CSS pixels to a millimetre of most tablets, where nobody has measured. */
const USUAL_PIXELS_PER_MM = 5.6
/** A gloved fingertip is about 20 mm across, a palm 60 and more. */
const PALM_MM = 32
/** A finger that goes further while it is down wipes. */
const WIPE_MM = 12
/** Contacts so close in time belong to one hand: none of them is a press. */
const TOGETHER_MS = 60
/** So many in so short a time are drops or a cloth; then the screen has to be quiet for a moment. */
const MANY = 6
const MANY_WITHIN_MS = 700
const QUIET_MS = 500
/** What lies on the glass this long is a drop or a spoon, and must not stop the fingers. */
const RESTING_MS = 3000

interface Down extends Contact {
  refused: TouchRefusal | null
}

export interface TouchJudge extends TouchWatcher {
  /** Why the last contact did not count; null once one did. */
  readonly $refused: ReadableAtom<TouchRefusal | null>
}

export function touchJudge(pixelsPerMm: number | null): TouchJudge {
  const scale = pixelsPerMm ?? USUAL_PIXELS_PER_MM
  const $refused = atom<TouchRefusal | null>(null)
  const down = new Map<number, Down>()
  let begun: readonly number[] = []
  /** The last beginning or end of a contact that was one of many. */
  let stormAt = Number.NEGATIVE_INFINITY
  let lastEndAt = Number.NEGATIVE_INFINITY

  function refusalOf(contact: Contact): TouchRefusal | null {
    if (begun.length >= MANY || contact.at - stormAt < QUIET_MS) {
      stormAt = contact.at
      return 'many'
    }
    if (contact.size > PALM_MM * scale) return 'palm'
    if ([...down.values()].some(({ at }) => contact.at - at < RESTING_MS)) return 'several'
    return contact.at - lastEndAt < TOGETHER_MS ? 'several' : null
  }

  return {
    $refused,
    began(contact) {
      begun = [...begun.filter((at) => contact.at - at < MANY_WITHIN_MS), contact.at]
      const refused = refusalOf(contact)
      if (refused !== null) for (const other of down.values()) other.refused ??= refused
      down.set(contact.id, { ...contact, refused })
      return refused === null
    },
    moved(contact) {
      const from = down.get(contact.id)
      if (!from) return
      if (Math.hypot(contact.x - from.x, contact.y - from.y) > WIPE_MM * scale) from.refused ??= 'wiping'
      // A hand that is laid down begins with a fingertip.
      if (contact.size > PALM_MM * scale) from.refused ??= 'palm'
    },
    ended(contact) {
      const from = down.get(contact.id)
      down.delete(contact.id)
      lastEndAt = contact.at
      if (!from) return false
      if (from.refused === 'many') stormAt = contact.at
      $refused.set(from.refused)
      return from.refused === null
    },
    lost(id) {
      down.delete(id)
    }
  }
}
