/**
 * Text as written made into text as said: figures, units, fractions, ranges, times, codes and short forms become words, so
 * that no engine has to guess them. What is already words stays as it is.
 */
import { plainText, tidyPauses } from './plain-text.ts'
import type { SpokenLanguage, UnitWords } from './spoken-language.ts'

/** A shop's own way to say a word or code: whole words, whatever the capitals. */
export interface Pronunciation {
  readonly written: string
  readonly spoken: string
}

/** Not inside a word, a code, a time of day or a date. */
const BEFORE = String.raw`(?<![\w./:,]|[\w.,]-)`
const AFTER = String.raw`(?![\w/:]|[.,]\d|-[A-Z])`
/** The point of a short form goes where the sentence goes on. */
const POINT = String.raw`(?:\.(?= [a-z(]))?`

/** Says how texts of one language are said. */
export function speaksIn(language: SpokenLanguage): (text: string, own?: readonly Pronunciation[]) => string {
  const { units, number, minus, rangeWord } = language
  const unit = Object.keys(units)
    .sort((a, b) => b.length - a.length)
    .map(escaped)
    .join('|')
  const numeral = language.numeral
  const withUnit = String.raw`(?: ?(${unit})(?: ?\/ ?(${unit}))?${POINT})?`
  const fractionSource = String.raw`(?:(\d+)[ -])?(\d+)\/(\d+)`
  const patterns = {
    minutesSeconds: new RegExp(String.raw`${BEFORE}(\d+):([0-5]\d) ?min${POINT}${AFTER}`, 'g'),
    time: new RegExp(
      String.raw`${BEFORE}([01]?\d|2[0-4])(?::([0-5]\d))?(?: ?([apAP])\.? ?[mM](?:\.(?! \p{Lu}|$)|(?!\w)))?${AFTER}`,
      'gu'
    ),
    ratio: new RegExp(String.raw`${BEFORE}\d+(?: ?: ?\d+)+${AFTER}`, 'g'),
    date: new RegExp(String.raw`${BEFORE}(\d{4})-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])${AFTER}`, 'g'),
    versions: new RegExp(String.raw`${BEFORE}\d+(?:\.\d+){2,}${AFTER}`, 'g'),
    fractionRange: new RegExp(
      String.raw`${BEFORE}${fractionSource}(?: ?[-–] ?| ${language.rangeWritten} )${fractionSource}${withUnit}${AFTER}`,
      'g'
    ),
    fraction: new RegExp(String.raw`${BEFORE}${fractionSource}${withUnit}${AFTER}`, 'gu'),
    amount: new RegExp(
      String.raw`${BEFORE}([-−]?)(${numeral})(?: ?(${unit}))?(?: ${language.rangeWritten} ([-−]?)| ?[-–] ?)(${numeral})${withUnit}${AFTER}`,
      'g'
    ),
    single: new RegExp(String.raw`${BEFORE}([-−]?)(${numeral})${withUnit}${AFTER}`, 'g'),
    inches: /(?<=\d)"/g,
    alone: new RegExp(
      String.raw`(?<![\w/])(?:${[...language.unitsAlone]
        .sort((a, b) => b.length - a.length)
        .map(escaped)
        .join('|')})(?![\w/])`,
      'g'
    )
  }
  const wordsOf = (first: string | undefined, under: string | undefined): UnitWords | null => {
    const over = first === undefined ? undefined : units[first]
    if (!over) return null
    const each = under === undefined ? undefined : units[under]
    return each
      ? { ...over, one: `${over.one} ${language.per} ${each.one}`, many: `${over.many} ${language.per} ${each.one}` }
      : over
  }
  const signed = (sign: string | undefined, numeralSaid: string, of: UnitWords | null) =>
    `${sign ? `${minus} ` : ''}${number(numeralSaid, of)}`
  const fractionOf = (whole: string | undefined, over: string, under: string, of: UnitWords | null) =>
    language.fraction({ whole: whole ?? null, over: Number(over), under: Number(under) }, of)

  const ratioOrTime = (sentence: string) => {
    const asRatio = (written: string) => language.ratio(written.split(':').map((part) => number(part.trim(), null)))
    if (language.ratioCue.test(sentence)) return sentence.replaceAll(patterns.ratio, asRatio)
    return sentence
      .replaceAll(patterns.time, (written, hour: string, minute: string | undefined, half: string | undefined) =>
        minute === undefined && half === undefined
          ? written
          : language.time(
              Number(hour),
              Number(minute ?? 0),
              half === undefined ? null : half.toLowerCase() === 'a' ? 'am' : 'pm'
            )
      )
      .replaceAll(patterns.ratio, asRatio)
  }

  return (text, own = []) => {
    const plain = plainText(pronounced(text, own), language.webAddress)
    const inches = plain.replaceAll(patterns.inches, (mark, at: number) =>
      plain.slice(0, at).split('"').length % 2 === 1 ? ' inch' : mark
    )
    const shortened = language.shortForms.reduce((said, [written, spoken]) => said.replaceAll(written, spoken), inches)
    const timed = shortened
      .replaceAll(patterns.date, (_, year: string, month: string, day: string) =>
        language.date(Number(year), Number(month), Number(day))
      )
      .replaceAll(patterns.minutesSeconds, (_, minutes: string, seconds: string) =>
        language.minutesAndSeconds(minutes, seconds)
      )
      .split(/(?<=[.!?]) /)
      .map(ratioOrTime)
      .join(' ')
    const said = timed
      .replaceAll(
        language.ordinals.written,
        (written, figure: string, ending: string) => language.ordinals.words(figure, ending) ?? written
      )
      .replaceAll(patterns.versions, (written) =>
        written
          .split('.')
          .map((part) => number(part, null))
          .join(' point ')
      )
      .replaceAll(patterns.fractionRange, (written, ...parts: (string | undefined)[]) => {
        const [wholeA, overA = '', underA = '', wholeB, overB = '', underB = '', first, under] = parts
        const of = wordsOf(first, under)
        const [a, b] = [fractionOf(wholeA, overA, underA, null), fractionOf(wholeB, overB, underB, of)]
        return a === null || b === null ? written : `${a} ${rangeWord} ${b}`
      })
      .replaceAll(
        patterns.fraction,
        (written, whole: string | undefined, over: string, under: string, first?: string, each?: string) =>
          fractionOf(whole, over, under, wordsOf(first, each)) ?? written
      )
      .replaceAll(
        patterns.amount,
        (written, sign: string, a: string, between: string | undefined, ...rest: (string | undefined)[]) => {
          const [secondSign, b = '', first, each] = rest
          // "5 mL to 1 L" is no range.
          if (between !== undefined && between !== first) return written
          const of = wordsOf(first, each)
          const range = `${signed(sign, a, of)} ${rangeWord} ${signed(secondSign, b, of)}`
          return of === null ? range : `${range} ${of.many}`
        }
      )
      .replaceAll(patterns.single, (_, sign: string, a: string, first?: string, each?: string) => {
        const of = wordsOf(first, each)
        return of === null ? signed(sign, a, null) : `${signed(sign, a, of)} ${a === '1' ? of.one : of.many}`
      })
      .replaceAll(patterns.alone, (written) => {
        const [first, each] = written in units ? [written] : written.split('/')
        return wordsOf(first, each)?.many ?? written
      })
    const apart = said.replaceAll(/(?<=\p{L}{2})\/(?=\p{L}{2})/gu, ' ')
    return tidyPauses(spelledOut(codesOut(apart, language), language))
  }
}

function pronounced(text: string, own: readonly Pronunciation[]): string {
  const known = own.filter(({ written }) => written.trim() !== '')
  if (known.length === 0) return text
  const spoken = new Map(known.map((one) => [one.written.trim().toLowerCase(), one.spoken]))
  const any = [...spoken.keys()].sort((a, b) => b.length - a.length).map(escaped)
  return text.replaceAll(
    new RegExp(String.raw`(?<![\p{L}\p{N}])(?:${any.join('|')})(?![\p{L}\p{N}])`, 'giu'),
    (written) => spoken.get(written.toLowerCase()) ?? written
  )
}

/** `DV-7B` is "D V seven B": short numbers as numbers, long ones digit by digit. */
function codesOut(text: string, { number }: SpokenLanguage): string {
  return text.replaceAll(/(?<![\w'])(?=[A-Z\d/-]*\d)(?=[\d/-]*[A-Z])[A-Z\d]+(?:[-/][A-Z\d]+)*(?![\w'])/g, (code) =>
    (code.match(/[A-Z]|\d+/g) ?? [])
      .map((part) =>
        /^[A-Z]$/.test(part)
          ? part
          : part.length < 3 && !part.startsWith('0')
            ? number(part, null)
            : digits(part, number)
      )
      .join(' ')
  )
}

function digits(figures: string, number: SpokenLanguage['number']): string {
  return Array.from(figures, (figure) => number(figure, null)).join(' ')
}

/** Capitals without a vowel can only be letters; others are, when the language knows them so. */
function spelledOut(text: string, { spelled }: SpokenLanguage): string {
  return text.replaceAll(/(?<![\p{L}\p{N}'])\p{Lu}{2,5}(?![\p{L}\p{N}'])/gu, (word) =>
    spelled.has(word) || !/[AEIOUYÁÉÍÓÚ]/.test(word) ? Array.from(word).join(' ') : word
  )
}

function escaped(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\/]/g, String.raw`\$&`)
}
