import { useStore } from '../use-store.ts'
import type { RecordsDesk } from '../../app/records-desk.ts'
import type { Unsent } from '../../app/standing.ts'
import { shopDateTime } from '../../app/shop-time.ts'
import { useSurroundings } from '../surroundings.ts'
import { useLanguage } from '../texts.ts'
import { useRecordsWords } from './use-records-words.ts'

/** What has not reached the server, and what it will never take: each entry by its name. */
export function StandingNotes({ desk }: { readonly desk: RecordsDesk }) {
  const texts = useRecordsWords()
  const standing = useStore(desk.$standing)
  if (standing.kind === 'looking') return null
  const { unsent, refused } = standing
  return (
    <>
      {unsent !== null && <UnsentNote unsent={unsent} />}
      {refused.length > 0 && (
        <section class="faults" role="alert">
          <h2>{texts.refusedTitle}</h2>
          <ul>
            {refused.map(({ id, why }) => (
              <li key={id}>{texts.refused(id, why)}</li>
            ))}
          </ul>
        </section>
      )}
    </>
  )
}

export function UnsentNote({ unsent: { count, since, age } }: { readonly unsent: Unsent }) {
  const texts = useRecordsWords()
  const { zone } = useSurroundings()
  const language = useLanguage()
  const when = shopDateTime(since, zone, language)
  return age === 'old' ? (
    <p class="state-note old-unsent" role="alert">
      {texts.unsentOld(count, when)}
    </p>
  ) : (
    <p class="state-note" role="status">
      {texts.unsent(count, when)}
    </p>
  )
}
