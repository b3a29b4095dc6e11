import type { Sum } from '../../core/sanitizer/mix-sum.ts'

type Tone = Extract<Sum<string>, { kind: 'answer' }>['tone']

export interface AnswerProps {
  readonly sum: Sum<string>
  readonly incomplete: string
  readonly tones: Readonly<Record<Tone, string>>
}

/** What came out, or what is still missing; said aloud by a screen reader as it changes. */
export function Answer({ sum, incomplete, tones }: AnswerProps) {
  return (
    <div class={`sum-answer ${sum.kind === 'answer' ? sum.tone : 'open'}`} role="status">
      {sum.kind === 'incomplete' ? (
        <p>{incomplete}</p>
      ) : (
        <>
          <p class="sum-tone">{tones[sum.tone]}</p>
          {sum.lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </>
      )}
    </div>
  )
}
