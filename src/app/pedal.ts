/** Pedals and remotes that send keys of their own: each switch is taught what it means. */
import type { Key } from '../ports/keys.ts'

export const PEDAL_MEANINGS = ['done', 'again', 'back'] as const
export type PedalMeaning = (typeof PEDAL_MEANINGS)[number]
/** By the code (UI Events) that a switch sends. */
export type Pedal = Readonly<Record<string, PedalMeaning>>

/** The key that means the same without being taught. */
const STANDS_FOR: Readonly<Record<PedalMeaning, Key>> = {
  done: { code: 'Space', key: ' ' },
  again: { code: 'PageUp', key: 'PageUp' },
  back: { code: 'Backspace', key: 'Backspace' }
}

/** Leave the page, or lead out of what is open: taught to mean anything else, they would lock somebody in. */
const NEVER: ReadonlySet<string> = new Set(['Escape', 'Tab', 'F5', 'F11', ''])

export function canBeTaught(code: string): boolean {
  return !NEVER.has(code) && !/^(Shift|Control|Alt|Meta)/.test(code)
}

/** One switch for a meaning, one meaning for a switch. */
export function taught(pedal: Pedal, meaning: PedalMeaning, code: string): Pedal {
  return { ...forgotten(pedal, meaning), [code]: meaning }
}

export function forgotten(pedal: Pedal, meaning: PedalMeaning): Pedal {
  return Object.fromEntries(Object.entries(pedal).filter(([, meant]) => meant !== meaning))
}

/** The switch that was taught a meaning; null while none was. */
export function switchOf(pedal: Pedal, meaning: PedalMeaning): string | null {
  return Object.entries(pedal).find(([, meant]) => meant === meaning)?.[0] ?? null
}

/** The key as it is meant: itself, where it was taught nothing. */
export function asTaught<Given extends Key>(pedal: Pedal, key: Given): Given {
  const meaning = pedal[key.code]
  return meaning === undefined ? key : { ...key, ...STANDS_FOR[meaning] }
}

export function isPedal(value: unknown): value is Pedal {
  return (
    typeof value === 'object' &&
    value !== null &&
    Object.entries(value).every(([code, meant]) => canBeTaught(code) && PEDAL_MEANINGS.some((known) => known === meant))
  )
}
