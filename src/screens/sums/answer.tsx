import type { Sum } from '../../core/sanitizer/mix-sum.ts'
import { sumsWordsEn as words } from './words.en.ts'

/** What came out, or what is still missing; said aloud by a screen reader as it changes. */
export function Answer({ sum, incomplete }: { readonly sum: Sum<string>; readonly incomplete: string }) {
  return (
    <div class={`sum-answer ${sum.kind === 'answer' ? sum.tone : 'open'}`} role="status">
      {sum.kind === 'incomplete' ? (
        <p>{incomplete}</p>
      ) : (
        <>
          <p class="sum-tone">{words.tones[sum.tone]}</p>
          {sum.lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </>
      )}
    </div>
  )
}
