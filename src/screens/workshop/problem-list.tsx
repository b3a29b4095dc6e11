import type { DraftFinding } from '../../core/procedure/draft/check-draft.ts'
import { useWorkshopWords } from './use-workshop-words.ts'
import { useDesk } from './workshop-context.ts'

/** What was found in the draft; each goes to where it stands. */
export function ProblemList() {
  const { draft, findings } = useDesk()
  const words = useWorkshopWords()
  const errors = findings.filter(({ weight }) => weight === 'error').length
  return (
    <section class="draft-problems" aria-label={words.problems.title}>
      <h2>{words.problems.title}</h2>
      <p role="status">
        {!draft.isRead
          ? words.problems.checking
          : findings.length === 0
            ? words.problems.none
            : words.problems.counts(errors, findings.length - errors)}
      </p>
      <ul>
        {findings.map((finding) => (
          <Problem key={`${finding.key} ${finding.line ?? ''}`} finding={finding} />
        ))}
      </ul>
    </section>
  )
}

function Problem({ finding }: { readonly finding: DraftFinding }) {
  const { goTo } = useDesk()
  const words = useWorkshopWords()
  const { weight, line, what, mend, rule, reason, source } = finding
  return (
    <li class={`draft-problem ${weight}`}>
      <button type="button" onClick={() => goTo(finding)}>
        <b>
          {weight === 'error' ? '✕' : '!'} {words.problems[weight]}
          {line !== null && `, ${words.problems.line(line)}`}
        </b>{' '}
        {what} {mend}
      </button>
      <details>
        <summary>{rule}</summary>
        {words.problems.why(reason, source)}
      </details>
    </li>
  )
}
