/** What the voice says of a step of a draft, in the order in which a run says it; half-written parts as far as they go. */
import { SIGNAL_WORDS, type SignalWord } from '../procedure.ts'
import { listAt, wordsAt, wordsIn } from './draft-values.ts'
import type { Path } from './edit.ts'

export type SaidOfStep =
  | { readonly kind: 'text'; readonly text: string }
  | {
      readonly kind: 'caution'
      /** Null until the author has chosen one. */
      readonly signal: SignalWord | null
      readonly hazard: string
      readonly consequence: string
      readonly avoid: string
    }
  /** The phrase that confirms the step. */
  | { readonly kind: 'confirm'; readonly phrase: string }
  /** What may be done when the answer is bad, or the wait took too long. */
  | { readonly kind: 'corrections'; readonly actions: readonly string[] }

const CHECKS = ['ask', 'read', 'count']

/** `first`: the language of words that are written without one. */
export function saidOfStep(draft: unknown, step: Path, language: string, first: string): readonly SaidOfStep[] {
  const words = (...path: Path) => wordsIn(draft, [...step, ...path], language, first)
  const text = (...path: Path): readonly SaidOfStep[] => {
    const found = words(...path)
    return found === '' ? [] : [{ kind: 'text', text: found }]
  }
  const corrections = (actions: readonly string[]): readonly SaidOfStep[] => {
    const written = actions.filter((action) => action !== '')
    return written.length === 0 ? [] : [{ kind: 'corrections', actions: written }]
  }
  const cautions = listAt(draft, [...step, 'cautions']).flatMap((_, at): readonly SaidOfStep[] => {
    const named = wordsAt(draft, [...step, 'cautions', at, 'signal'])
    const signal = SIGNAL_WORDS.find((word) => word === named) ?? null
    const of = (key: string) => words('cautions', at, key)
    const caution = {
      kind: 'caution',
      signal,
      hazard: of('hazard'),
      consequence: of('consequence'),
      avoid: of('avoid')
    } as const
    return caution.hazard + caution.consequence + caution.avoid === '' ? [] : [caution]
  })
  const phrase = words('confirm')
  return [
    ...cautions,
    ...text('say'),
    ...CHECKS.flatMap((check) => text(check, 'question')),
    ...text('more'),
    ...text('why'),
    ...(phrase === '' ? [] : [{ kind: 'confirm', phrase } as const]),
    ...CHECKS.flatMap((check) =>
      corrections(listAt(draft, [...step, check, 'if not']).map((_, at) => words(check, 'if not', at)))
    ),
    ...corrections([words('wait', 'late', 'say')])
  ]
}
