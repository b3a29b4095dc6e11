/** Practised voices kept on the server, so that every tablet of a shop knows them. Only ever with the person's consent. */
import type { Takes } from '../core/ears/phrasebook.ts'
import type { Practiser } from './voice-practice.ts'

/** Each change of a voice there has a higher revision, its being forgotten too; 0 before there is any. */
export type VoiceThere =
  | { readonly kind: 'voice'; readonly takes: readonly Takes[]; readonly revision: number }
  /** As this device knows it. */
  | { readonly kind: 'same' }
  | { readonly kind: 'forgotten' }
  /** There never was one, or the server was set back to before what this device knows. */
  | { readonly kind: 'none-as-new' }

/** `known`: the highest revision that this device has heard of. `away` when the server cannot be asked. */
export interface VoiceShelf {
  get(who: Practiser, known: number): Promise<VoiceThere | 'away'>
  put(
    who: Practiser,
    takes: readonly Takes[],
    known: number
  ): Promise<{ readonly kind: 'kept'; readonly revision: number } | 'refused' | 'away'>
  remove(who: Practiser, known: number): Promise<{ readonly kind: 'removed'; readonly revision: number } | 'away'>
}
