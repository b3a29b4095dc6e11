/** A reading as somebody types it at a screen: what to ask about, or how it is judged, in words. */
import { withFallbacks } from './applicable-limits.ts'
import { explainJudgement } from './explain-judgement.ts'
import { judge } from './judge.ts'
import type { Sum } from './mix-sum.ts'
import { implausible, type Measured, type Reading } from './reading.ts'
import type { RuleSet, Subject } from './rule-set.ts'
import { typedNumber, typedTemperature, type Typed } from './typed-fields.ts'
import type { SanitizerWords } from './words.en.ts'

export interface JudgeFields {
  readonly subject: Subject
  readonly rules: string
  /** Id of a label on the shelf, or empty. */
  readonly label: string
  readonly ppm: string
  readonly temperature: string
  readonly ph: string
  readonly hardness: string
  readonly seconds: string
  readonly clear: 'yes' | 'no' | ''
}

export function judgeSum(fields: JudgeFields, shelf: readonly RuleSet[], words: SanitizerWords): Sum<Measured> {
  const plain = {
    ppm: typedNumber(fields.ppm, words),
    ph: typedNumber(fields.ph, words),
    hardness: typedNumber(fields.hardness, words),
    seconds: typedNumber(fields.seconds, words)
  }
  const temperature = typedTemperature(fields.temperature, words)
  const typed: Readonly<Record<Measured, Typed<unknown>>> = { ...plain, temperature }
  const reading: Reading = {
    subject: fields.subject,
    ppm: valueOf(plain.ppm),
    ph: valueOf(plain.ph),
    hardness: valueOf(plain.hardness),
    seconds: valueOf(plain.seconds),
    temperature: valueOf(temperature),
    clear: fields.clear === '' ? undefined : fields.clear === 'yes'
  }
  const asks = Object.fromEntries([
    ...Object.entries(typed).flatMap(([field, one]) => (one.kind === 'ask' ? [[field, one.text]] : [])),
    ...implausible(reading).map((one) => [one.quantity, words.implausible(one)])
  ]) as Partial<Record<Measured, string>>
  const isEmpty = fields.clear === '' && Object.values(typed).every(({ kind }) => kind === 'empty')
  if (isEmpty || Object.keys(asks).length > 0) return { kind: 'incomplete', asks }
  const label = shelf.find(({ id }) => id === fields.label) ?? null
  const judgement = judge(reading, withFallbacks(fields.rules, shelf), label)
  const { reasons, notes, source } = explainJudgement(judgement, words)
  return {
    kind: 'answer',
    tone: judgement.verdict,
    lines: [...reasons, ...notes, ...(source === null ? [] : [words.from(source)]), words.labelFirst]
  }
}

function valueOf<T>(typed: Typed<T>): T | undefined {
  return typed.kind === 'value' ? typed.value : undefined
}
