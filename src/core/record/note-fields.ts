/**
 * What a record may say that no step measures: fields of the field set (field-set.ts) which the procedure does not give.
 * Free words, as they stand on the label or the carton.
 */
export const NOTE_FIELDS = [
  'mix-lot',
  'mix-opened',
  'mix-discard',
  'product',
  'registration',
  'label-percent',
  'batch-volume',
  'dose',
  'since-disassembly'
] as const
export type NoteField = (typeof NOTE_FIELDS)[number]

/** A remark takes no other remark's place. */
export const REMARK = 'remark'
