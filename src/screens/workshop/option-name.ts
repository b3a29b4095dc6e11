import type { Part, ReadingKind, SignalWord } from '../../core/procedure/procedure.ts'
import type { ChemicalFamily } from '../../core/sanitizer/chemical-order.ts'
import type { Subject } from '../../core/sanitizer/rule-set.ts'

/** Words of the format that the form offers to choose from, and differences name. */
export type Option =
  | 'none'
  | 'ask'
  | 'read'
  | 'count'
  | 'yes'
  | 'no'
  | 'off'
  | 'on'
  | 'side'
  | 'machine'
  | 'full'
  | SignalWord
  | ReadingKind
  | Part['care']
  | ChemicalFamily
  | Subject

/** What somebody wrote instead stays as it is. */
export function optionName(options: Readonly<Record<Option, string>>, word: string): string {
  return Object.hasOwn(options, word) ? options[word as Option] : word
}
