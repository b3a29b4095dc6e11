/** Choices kept on this device. */
import { atom, type WritableAtom } from 'nanostores'
import { isLanguage, type Language } from '../core/talk/languages.ts'
import type { UnitSystem } from '../core/talk/quantities.ts'
import { isPedal, type Pedal } from './pedal.ts'
import type { EventLog } from '../ports/event-log.ts'

/** Somebody chosen from the shop's people; `check` is the server's check of the PIN, at so many trusted epoch ms. */
export interface ChosenPerson {
  readonly id: string
  readonly name: string
  readonly check: { readonly id: string; readonly at: number } | null
}

export interface Settings {
  readonly units: UnitSystem
  readonly site: string
  readonly operator: string
  /** Whom of the shop's people `operator` was chosen from. */
  readonly person: ChosenPerson | null
  /** When the machine must be ready, `HH:MM` on the shop's clock; empty when nobody has said. */
  readonly readyAt: string
  /** How far away the screen is read: it sets the size of everything. */
  readonly distance: 'hand' | 'near' | 'far'
  /** The colours: as the device has them, or chosen. `strong` follows the device's light or dark at full contrast. */
  readonly look: Look
  /** CSS pixels to a millimetre of this screen, measured by somebody; null while nobody has. */
  readonly pixelsPerMm: number | null
  /** How long the room rings on after a sound. */
  readonly room: 'usual' | 'echoing'
  /** What the switches of a pedal or remote were taught to mean, by the code (UI Events) each sends. */
  readonly pedal: Pedal
  /** There is but one switch: what else can be done is shown one after the other for it to take, each for so many ms. */
  readonly oneSwitchMs: number | null
  /** `word`: what is said counts only after the attention word, for loud places. */
  readonly attention: 'none' | 'word'
  /** Operators who asked to be told everything, by name as they write it. */
  readonly toldAll: readonly string[]
  /** For operators who have not chosen: the last choice on this device. */
  readonly language: Language
  /** What operators chose, by name as they write it. */
  readonly languages: Readonly<Record<string, Language>>
}

/** From the end of a sound to open ears. Half a second to one and a half are usual in voice projects. */
export const TAIL_MS: Readonly<Record<Settings['room'], number>> = { usual: 500, echoing: 1200 }

export const LOOKS = ['device', 'light', 'dark', 'strong'] as const
export type Look = (typeof LOOKS)[number]

/** From a large monitor to a small telephone; anything else is a slip of the hand. */
export const PIXELS_PER_MM = { least: 3, most: 9 }

/** How long one of the things to take is offered to a single switch, ms: quick, usual, slow. */
export const ONE_SWITCH_MS = [1000, 1800, 3000] as const

const DEFAULTS: Omit<Settings, 'language'> = {
  units: 'us',
  site: '',
  operator: '',
  person: null,
  readyAt: '',
  distance: 'near',
  look: 'device',
  pixelsPerMm: null,
  room: 'usual',
  pedal: {},
  oneSwitchMs: null,
  attention: 'none',
  toldAll: [],
  languages: {}
}
const KEY = 'settings'

/** `language` is what the device itself speaks, until somebody chooses. */
export async function openSettings(log: EventLog, language: Language): Promise<WritableAtom<Settings>> {
  const kept = await log.setting(KEY)
  const $settings = atom<Settings>({
    ...DEFAULTS,
    language,
    ...(kept.kind === 'kept' && kept.value !== null ? parse(kept.value) : {})
  })
  $settings.listen((settings) => void log.keepSetting(KEY, JSON.stringify(settings)))
  return $settings
}

/** Settings are a convenience: anything unreadable falls back to the defaults. */
function parse(text: string): Partial<Settings> {
  try {
    const value: unknown = JSON.parse(text)
    if (typeof value !== 'object' || value === null) return {}
    const known = value as Record<string, unknown>
    const { units, site, operator, person, readyAt, distance, look, pixelsPerMm, room } = known
    const { attention, pedal, oneSwitchMs, toldAll, language, languages } = known
    return {
      ...(units === 'metric' || units === 'us' ? { units } : {}),
      ...(typeof site === 'string' ? { site } : {}),
      ...(typeof operator === 'string' ? { operator } : {}),
      ...(isPerson(person) ? { person } : {}),
      ...(typeof readyAt === 'string' ? { readyAt } : {}),
      ...(distance === 'hand' || distance === 'near' || distance === 'far' ? { distance } : {}),
      ...(isLook(look) ? { look } : {}),
      ...(isScale(pixelsPerMm) ? { pixelsPerMm } : {}),
      ...(room === 'usual' || room === 'echoing' ? { room } : {}),
      ...(isPedal(pedal) ? { pedal } : {}),
      ...(ONE_SWITCH_MS.some((ms) => ms === oneSwitchMs) ? { oneSwitchMs: oneSwitchMs as number } : {}),
      ...(attention === 'none' || attention === 'word' ? { attention } : {}),
      ...(Array.isArray(toldAll) && toldAll.every((name) => typeof name === 'string') ? { toldAll } : {}),
      ...(isLanguage(language) ? { language } : {}),
      ...(typeof languages === 'object' && languages !== null
        ? { languages: Object.fromEntries(Object.entries(languages).filter(([, one]) => isLanguage(one))) }
        : {})
    }
  } catch {
    return {}
  }
}

function isLook(value: unknown): value is Look {
  return LOOKS.some((look) => look === value)
}

function isScale(value: unknown): value is number {
  return typeof value === 'number' && value >= PIXELS_PER_MM.least && value <= PIXELS_PER_MM.most
}

function isPerson(value: unknown): value is ChosenPerson | null {
  const { id, name, check } = (value ?? {}) as Record<string, unknown>
  const { id: checkId, at } = (check ?? { id: '', at: 0 }) as Record<string, unknown>
  return [id, name, checkId].every((part) => typeof part === 'string') && typeof at === 'number'
}
