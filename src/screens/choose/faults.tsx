import type { Offers } from '../../app/app.ts'
import { useChooseWords } from './use-choose-words.ts'

/** Procedure files that were left out: where, what, and how to mend it. */
export function Faults({ faults }: { readonly faults: Offers['faults'] }) {
  const choose = useChooseWords()
  return (
    <section class="faults" aria-labelledby="faults-title">
      <h2 id="faults-title">{choose.faults}</h2>
      {faults.map(({ file, problems }) => (
        <div key={file}>
          <h3>{file}</h3>
          <ul>
            {problems.map(({ line, what, mend }, index) => (
              <li key={`${index} ${what}`}>
                {line !== null && <b>{choose.line(line)}: </b>}
                {what} <i>{choose.mend(mend)}</i>
              </li>
            ))}
          </ul>
        </div>
      ))}
    </section>
  )
}
