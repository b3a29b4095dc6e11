/** Choices kept on this device. */
import { atom, type WritableAtom } from 'nanostores'
import type { UnitSystem } from '../core/talk/quantities.ts'
import type { EventLog } from '../ports/event-log.ts'

export interface Settings {
  readonly units: UnitSystem
  readonly site: string
  readonly operator: string
  /** When the machine must be ready, `HH:MM` on the shop's clock; empty when nobody has said. */
  readonly readyAt: string
  /** How far away the screen is read: it sets the size of everything. */
  readonly distance: 'hand' | 'near' | 'far'
  /** How long the room rings on after a sound. */
  readonly room: 'usual' | 'echoing'
  /** Operators who asked to be told everything, by name as they write it. */
  readonly toldAll: readonly string[]
}

const DEFAULTS: Settings = {
  units: 'us',
  site: '',
  operator: '',
  readyAt: '',
  distance: 'near',
  room: 'usual',
  toldAll: []
}
const KEY = 'settings'

export async function openSettings(log: EventLog): Promise<WritableAtom<Settings>> {
  const kept = await log.setting(KEY)
  const $settings = atom<Settings>({
    ...DEFAULTS,
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
    const { units, site, operator, readyAt, distance, room, toldAll } = value as Record<string, unknown>
    return {
      ...(units === 'metric' || units === 'us' ? { units } : {}),
      ...(typeof site === 'string' ? { site } : {}),
      ...(typeof operator === 'string' ? { operator } : {}),
      ...(typeof readyAt === 'string' ? { readyAt } : {}),
      ...(distance === 'hand' || distance === 'near' || distance === 'far' ? { distance } : {}),
      ...(room === 'usual' || room === 'echoing' ? { room } : {}),
      ...(Array.isArray(toldAll) && toldAll.every((name) => typeof name === 'string') ? { toldAll } : {})
    }
  } catch {
    return {}
  }
}
