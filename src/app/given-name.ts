/** Whose name begins or joins a run, as far as this device knows. */
import type { GivenName } from '../core/run/event.ts'
import type { Settings } from './settings.ts'

/** A PIN stands for a shift. The server does not let one stand for longer either. */
const STANDS_MS = 12 * 3600_000

/** Nothing for a name that was typed, or that is not the chosen one any more. `now`: trusted epoch ms. */
export function givenName(
  { person }: Pick<Settings, 'person'>,
  name: string,
  now: number
): { readonly who?: GivenName } {
  if (person === null || person.name !== name.trim()) return {}
  const check = person.check !== null && now - person.check.at < STANDS_MS ? person.check.id : null
  return { who: { person: person.id, check } }
}
