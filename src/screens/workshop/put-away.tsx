import { useState } from 'preact/hooks'
import { shopDateTime } from '../../app/shop-time.ts'
import { textFor } from '../../core/talk/quantities.ts'
import type { PutAwayListing, Workshop } from '../../app/workshop/workshop.ts'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useLanguage } from '../texts.ts'
import { useWorkshopWords } from './use-workshop-words.ts'
import { WithAuthority } from './with-authority.tsx'

/** Takes a procedure off the list: an example that has served, or work that nobody does any more. */
export function PutAway({ workshop, id }: { readonly workshop: Workshop; readonly id: string }) {
  const { history } = useWorkshopWords()
  const [isAsked, setAsked] = useState(false)
  return (
    <section class="draft-form">
      <h2>{history.putAway}</h2>
      <p>{history.putAwayHint}</p>
      {isAsked ? (
        <WithAuthority>
          <Press onPress={() => void workshop.putAway(id)}>{history.reallyPutAway}</Press>
        </WithAuthority>
      ) : (
        <Press onPress={() => setAsked(true)}>{history.putAway}</Press>
      )}
    </section>
  )
}

export interface AllPutAwayProps {
  readonly workshop: Workshop
  readonly all: readonly PutAwayListing[]
}

/** What is no longer offered. Publishing one of its versions again offers it. */
export function AllPutAway({ workshop, all }: AllPutAwayProps) {
  const words = useWorkshopWords()
  const { zone } = useSurroundings()
  const language = useLanguage()
  if (all.length === 0) return null
  return (
    <section class="draft-form">
      <h2>{words.noLongerOffered}</h2>
      {all.map(({ id, title, by, at }) => (
        <div key={id} class="draft-entry">
          <b>{textFor(title, language)}</b>
          <p>{words.putAwayBy(by, shopDateTime(at, zone, language))}</p>
          <Press label={`${words.versions}: ${textFor(title, language)}`} onPress={() => void workshop.versions(id)}>
            {words.versions}
          </Press>
        </div>
      ))}
    </section>
  )
}
