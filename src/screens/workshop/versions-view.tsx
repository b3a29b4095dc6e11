import { useEffect, useState } from 'preact/hooks'
import { shopDateTime } from '../../app/shop-time.ts'
import type { Place, Workshop, VersionListing } from '../../app/workshop/workshop.ts'
import { textFor } from '../../core/talk/quantities.ts'
import type { Procedure } from '../../core/procedure/procedure.ts'
import { Field } from '../parts/field.tsx'
import { Pick } from '../parts/pick.tsx'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useLanguage } from '../texts.ts'
import { DifferenceView } from './difference-view.tsx'
import { NoticeLine } from './notice-line.tsx'
import { PutAway } from './put-away.tsx'
import { useWorkshopWords } from './use-workshop-words.ts'
import { WithAuthority } from './with-authority.tsx'

export interface VersionsViewProps {
  readonly workshop: Workshop
  readonly shown: Extract<Place, { kind: 'versions' }>
}

/** All versions of a procedure, what lies between any two of them, and the way back. */
export function VersionsView({ workshop, shown: { id, title, versions, current, notice } }: VersionsViewProps) {
  const words = useWorkshopWords()
  const { zone } = useSurroundings()
  const language = useLanguage()
  const newest = versions[0]?.hash ?? ''
  const [older, setOlder] = useState(versions[1]?.hash ?? newest)
  const [newer, setNewer] = useState(newest)
  const names = versions.map(
    ({ hash, publishedAt, releases }) =>
      [hash, `${shopDateTime(releases[0]?.at ?? publishedAt, zone, language)}, ${hash.slice(0, 8)}`] as const
  )
  return (
    <>
      <h1>{words.history.title(textFor(title, language))}</h1>
      {notice && <NoticeLine notice={notice} />}
      <ol class="versions">
        {versions.map((version) => (
          <Version
            key={version.hash}
            workshop={workshop}
            id={id}
            version={version}
            isCurrent={version.hash === current}
          />
        ))}
      </ol>
      <section class="draft-form">
        <h2>{words.history.compare}</h2>
        <div class="draft-row">
          <Pick label={words.history.older} value={older} options={names} onValue={setOlder} />
          <Pick label={words.history.newer} value={newer} options={names} onValue={setNewer} />
        </div>
        <Compared key={`${older} ${newer}`} workshop={workshop} older={older} newer={newer} />
      </section>
      {current !== null && <PutAway workshop={workshop} id={id} />}
    </>
  )
}

interface VersionProps {
  readonly workshop: Workshop
  readonly id: string
  readonly version: VersionListing
  readonly isCurrent: boolean
}

function Version({ workshop, id, version, isCurrent }: VersionProps) {
  const words = useWorkshopWords()
  const { zone } = useSurroundings()
  const language = useLanguage()
  const [asked, setAsked] = useState(false)
  const [note, setNote] = useState('')
  const { hash, publishedAt, isFile, releases, uses } = version
  return (
    <li class="draft-entry">
      <h2>
        {hash.slice(0, 8)} {isCurrent && <b>· {words.history.offered}</b>}{' '}
        {isFile && <small>· {words.history.file}</small>}
      </h2>
      {releases.length === 0 && <p>{words.history.neverPublished(shopDateTime(publishedAt, zone, language))}</p>}
      {releases.map((release) => (
        <div key={release.number}>
          <p>
            {words.history.entry(shopDateTime(release.at, zone, language), release.by)}
            {release.note !== '' && `: ${release.note}`}
          </p>
          {release.reasons.map(({ rule, reason, what }) => (
            <p key={`${rule} ${what}`}>
              <small>{words.history.accepted(rule, reason)}</small>
            </p>
          ))}
        </div>
      ))}
      <p>
        {uses.length === 0
          ? words.history.unused
          : `${words.history.usedBy}: ${uses.map((use) => words.uses(use.machine, use.site, use.runs, use.open)).join('; ')}`}
      </p>
      {!isCurrent &&
        (asked ? (
          <>
            <Field label={words.history.goBackNote} value={note} onValue={setNote} longest={1000} focused />
            <WithAuthority>
              <Press disabled={note.trim() === ''} onPress={() => void workshop.goBack(id, hash, note.trim())}>
                {words.history.goBack}
              </Press>
            </WithAuthority>
          </>
        ) : (
          <Press onPress={() => setAsked(true)}>{words.history.goBack}</Press>
        ))}
    </li>
  )
}

interface ComparedProps {
  readonly workshop: Workshop
  readonly older: string
  readonly newer: string
}

function Compared({ workshop, older, newer }: ComparedProps) {
  const [both, setBoth] = useState<readonly [Procedure, Procedure] | null>(null)
  useEffect(() => {
    let isHere = true
    void Promise.all([workshop.version(older), workshop.version(newer)]).then(([before, after]) => {
      if (isHere && before && after) setBoth([before, after])
    })
    return () => {
      isHere = false
    }
  }, [workshop, older, newer])
  return both && <DifferenceView before={both[0]} after={both[1]} />
}
