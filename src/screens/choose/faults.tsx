import type { Offers } from '../../app/app.ts'
import { useWords } from '../surroundings.ts'

/** Procedure files that were left out: where, what, and how to mend it. */
export function Faults({ faults }: { readonly faults: Offers['faults'] }) {
  const words = useWords()
  return (
    <section class="faults" aria-labelledby="faults-title">
      <h2 id="faults-title">{words.choose.faults}</h2>
      {faults.map(({ file, problems }) => (
        <div key={file}>
          <h3>{file}</h3>
          <ul>
            {problems.map(({ line, what, mend }, index) => (
              <li key={`${index} ${what}`}>
                {line !== null && <b>{words.choose.line(line)}: </b>}
                {what} <i>{words.choose.mend(mend)}</i>
              </li>
            ))}
          </ul>
        </div>
      ))}
    </section>
  )
}
