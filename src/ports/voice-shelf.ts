/** Practised voices kept on the server, so that every tablet of a shop knows them. Only ever with the person's consent. */
import type { Takes } from '../core/ears/phrasebook.ts'
import type { Practiser } from './voice-practice.ts'

export interface VoiceShelf {
  /** Null where there is none; `away` when the server cannot be asked. */
  get(who: Practiser): Promise<readonly Takes[] | null | 'away'>
  put(who: Practiser, takes: readonly Takes[]): Promise<'kept' | 'refused' | 'away'>
  remove(who: Practiser): Promise<'removed' | 'away'>
}
