/** What a key or pedal means at this moment. */
import type { Call } from '../core/run/call.ts'
import { takesYesNo, type Asking } from '../core/talk/asking.ts'
import type { Intent, PlainIntent } from '../core/talk/intent.ts'
import { HOLD_MS, LONG_HOLD_MS, type Key, type KeyPress } from '../ports/keys.ts'
import { isNumberKey, type NumberKey } from './number-entry.ts'

export { HOLD_MS } from '../ports/keys.ts'

export type KeyMeaning =
  | { readonly kind: 'intent'; readonly intent: Intent }
  /** Goes into the number that is being entered. */
  | { readonly kind: 'number-key'; readonly key: NumberKey }
  /** The other scale of a temperature. */
  | { readonly kind: 'number-scale' }
  | { readonly kind: 'record-number' }
  | { readonly kind: 'show-keys' }
  /** A single switch asks to be offered the answers in sight, or everything else. */
  | { readonly kind: 'scan'; readonly of: 'answers' | 'everything' }
  /** A single switch takes what is offered. */
  | { readonly kind: 'scan-take' }
  | { readonly kind: 'close' }
  /** Ours, so that the browser does nothing with it, but without a meaning now. */
  | { readonly kind: 'nothing' }

export interface KeyContext {
  readonly call: Call
  readonly asking: Asking | null
  /** Lanes in the order of the screen, with their names. */
  readonly lanes: readonly { readonly id: string; readonly name: string }[]
  /** What may be done about a stopped or late lane, in the order shown. */
  readonly corrections: readonly string[]
  /** A number is asked for. */
  readonly numbers: boolean
  /** Something has been typed into the number already. */
  readonly typed: boolean
  /** Something covers the call and can be closed. */
  readonly panelOpen: boolean
  /** There is one switch only; `scanning`: it is offered one thing after the other. */
  readonly oneSwitch: 'no' | 'yes' | 'scanning'
}

/** Presenters and page-turning pedals send one of these; so do the two biggest keys. */
export const NEXT_KEYS = ['Space', 'Enter', 'NumpadEnter', 'PageDown', 'ArrowRight', 'ArrowDown'] as const
const BACK_KEYS = ['PageUp', 'ArrowLeft', 'ArrowUp'] as const

const NEXT: ReadonlySet<string> = new Set(NEXT_KEYS)
const BACK: ReadonlySet<string> = new Set(BACK_KEYS)

const LETTERS: Readonly<Record<string, PlainIntent>> = {
  y: 'yes',
  n: 'no',
  h: 'how-long',
  e: 'ready-when',
  w: 'why',
  i: 'why-here',
  m: 'more',
  q: 'quiet',
  x: 'new-part'
}

const MODIFIERS: ReadonlySet<string> = new Set(['Shift', 'Control', 'Alt', 'AltGraph', 'Meta', 'CapsLock', 'Fn', 'Tab'])

/** Null: the key is not ours. */
export function meaningOf(press: KeyPress, context: KeyContext): KeyMeaning | null {
  if (MODIFIERS.has(press.key)) return null
  if (context.call.kind === 'finished' || context.call.kind === 'abandoned') return null
  if (context.call.kind === 'alarm') return intent({ type: 'what-now' })
  // Kiosk remotes send F5 for "start": a reload in the middle of a run helps nobody.
  if (press.code === 'F5') return { kind: 'nothing' }
  if (press.key === 'Escape') return context.panelOpen ? { kind: 'close' } : { kind: 'nothing' }
  if (press.key === '?' || press.code === 'F1') return { kind: 'show-keys' }
  return (context.numbers ? inNumber(press, context) : null) ?? plainly(press, context)
}

const SCALE_KEY = 'u'

function asksTemperature({ call }: KeyContext): boolean {
  const check = call.kind === 'step' ? call.place.step.check : null
  return check?.kind === 'reading' && check.reading === 'temperature'
}

function inNumber(press: KeyPress, context: KeyContext): KeyMeaning | null {
  const { typed } = context
  if (isNumberKey(press.key)) return { kind: 'number-key', key: press.key }
  if (press.key === ',') return { kind: 'number-key', key: '.' }
  if (press.key.toLowerCase() === SCALE_KEY && asksTemperature(context)) return { kind: 'number-scale' }
  if (!typed) return null
  if (press.code === 'Backspace') return { kind: 'number-key', key: 'erase' }
  return press.code === 'Enter' || press.code === 'NumpadEnter' ? { kind: 'record-number' } : null
}

function plainly(press: KeyPress, context: KeyContext): KeyMeaning | null {
  const { call, oneSwitch } = context
  const held = press.heldMs >= HOLD_MS
  if (NEXT.has(press.code)) {
    if (oneSwitch === 'scanning') return { kind: held ? 'close' : 'scan-take' }
    if (oneSwitch === 'yes' && press.heldMs >= LONG_HOLD_MS) return { kind: 'scan', of: 'everything' }
    if (oneSwitch === 'yes' && !held && severalAnswers(context)) return { kind: 'scan', of: 'answers' }
    if (held) return intent(asksYesNo(context) ? { type: 'yes' } : { type: 'held' })
    return intent({ type: call.kind === 'paused' ? 'resume' : 'done' })
  }
  if (BACK.has(press.code)) return intent({ type: held && asksYesNo(context) ? 'no' : 'repeat' })
  if (press.code === 'Backspace') return intent({ type: 'take-back' })
  const letter = press.key.toLowerCase()
  if (letter === 'p') return intent({ type: call.kind === 'paused' ? 'resume' : 'pause' })
  const plain = LETTERS[letter]
  if (plain !== undefined) return intent({ type: plain })
  return /^[1-9]$/.test(letter) ? byNumber(Number(letter), context) : byLetter(letter, context)
}

/** What one press cannot answer: a number, a choice, yes or no. */
function severalAnswers({ call, asking, panelOpen }: KeyContext): boolean {
  if (panelOpen || asking !== null) return true
  if (call.kind === 'stopped' || call.kind === 'late') return true
  return call.kind === 'step' && call.place.step.check !== null
}

/** A pedal has no yes and no of its own: held down, the two pedals stand for them. */
function asksYesNo({ call, asking }: KeyContext): boolean {
  if (takesYesNo(asking)) return true
  return call.kind === 'step' && call.place.step.check?.kind === 'yes-no'
}

function byNumber(number: number, { asking, call, corrections, lanes }: KeyContext): KeyMeaning {
  if (asking?.kind === 'which-correction' || asking?.kind === 'which-part')
    return intent({ type: 'number', value: number, unit: null })
  if (call.kind === 'stopped' || call.kind === 'late') {
    const action = corrections[number - 1]
    return action === undefined ? { kind: 'nothing' } : intent({ type: 'correction', action })
  }
  const lane = lanes[number - 1]
  return lane ? intent({ type: 'lane', lane: lane.id }) : { kind: 'nothing' }
}

function byLetter(letter: string, { lanes }: KeyContext): KeyMeaning | null {
  const lane = lanes.find(({ id }) => laneLetter(id, lanes) === letter)
  return lane ? intent({ type: 'lane', lane: lane.id }) : null
}

/** The first letter of a lane's name, unless it is the letter of something else or of two lanes. */
export function laneLetter(lane: string, lanes: KeyContext['lanes']): string | null {
  const letters = lanes.map(({ name }) => name.trim().slice(0, 1).toLowerCase())
  const own = letters[lanes.findIndex(({ id }) => id === lane)]
  if (!own || own === 'p' || own in LETTERS) return null
  return letters.filter((letter) => letter === own).length === 1 ? own : null
}

/** Keys that are taken from the browser while a run is open. */
export function isUsed(key: Key, context: KeyContext): boolean {
  return meaningOf({ ...key, heldMs: 0 }, context) !== null
}

function intent(meant: Intent): KeyMeaning {
  return { kind: 'intent', intent: meant }
}
