/** What one language has to say about figures, units and short forms, so that one engine can write them out. */

export interface UnitWords {
  readonly one: string
  readonly many: string
  /** Grammatical gender, where the language counts with it. */
  readonly gender?: 'feminine'
}

export interface Fraction {
  /** Whole numeral before it, as written; null for none. */
  readonly whole: string | null
  readonly over: number
  readonly under: number
}

export interface SpokenLanguage {
  /** Source of a regular expression for a numeral without its sign. */
  readonly numeral: string
  /** Words for a numeral; `unit` is what is counted, null when nothing is named. */
  readonly number: (numeral: string, unit: UnitWords | null) => string
  readonly minus: string
  readonly units: Readonly<Record<string, UnitWords>>
  /** Units that are written without a number, too. */
  readonly unitsAlone: readonly string[]
  /** Between two units: `g/L`. */
  readonly per: string
  readonly rangeWord: string
  /** How ranges are written in words, `to`; a source of a regular expression. */
  readonly rangeWritten: string
  /** Null where it is no amount that people write as a fraction. */
  readonly fraction: (fraction: Fraction, unit: UnitWords | null) => string | null
  /** `half` is the half of a twelve-hour day. */
  readonly time: (hour: number, minute: number, half: 'am' | 'pm' | null) => string
  readonly minutesAndSeconds: (minutes: string, seconds: string) => string
  readonly ratio: (parts: readonly string[]) => string
  /** In a sentence with such a word `1:10` is a ratio and no time. */
  readonly ratioCue: RegExp
  readonly ordinals: { readonly written: RegExp; readonly words: (numeral: string, ending: string) => string | null }
  readonly date: (year: number, month: number, day: number) => string
  /** Signs and short forms, in the order they are replaced. */
  readonly shortForms: readonly (readonly [written: RegExp, spoken: string])[]
  readonly webAddress: string
  /** Capitals that are said letter by letter though a vowel is among them. */
  readonly spelled: ReadonlySet<string>
}
