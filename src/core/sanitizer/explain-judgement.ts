/** A judgement in words: what, by how much, what to do, and whose limit says so. */
import type { Judgement } from './judge.ts'
import type { SanitizerWords } from './words.en.ts'

export interface ExplainedJudgement {
  readonly heading: string
  readonly reasons: readonly string[]
  readonly notes: readonly string[]
  /** Of the limit that decided; null where there was none. */
  readonly source: string | null
}

export function explainJudgement(judgement: Judgement, words: SanitizerWords): ExplainedJudgement {
  return {
    heading: { good: words.good, out: words.outOfLimits, unknown: words.unknown }[judgement.verdict],
    reasons: reasonsFor(judgement, words),
    notes: judgement.verdict === 'good' ? judgement.assumed.map(words.assumed) : [],
    source: judgement.decided === null ? null : words.source(judgement.decided.limit)
  }
}

function reasonsFor(judgement: Judgement, words: SanitizerWords): string[] {
  switch (judgement.verdict) {
    case 'good':
      return []
    case 'out':
      return judgement.out.map(words.out)
    case 'unknown':
      return judgement.missing.map(words.missing)
  }
}
