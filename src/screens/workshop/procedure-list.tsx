import { useId } from 'preact/hooks'
import { serverSaid } from '../../app/server-said.ts'
import { shopDateTime } from '../../app/shop-time.ts'
import type { Place, Workshop, DraftListing, WorkshopListing } from '../../app/workshop/workshop.ts'
import { textFor } from '../../core/talk/quantities.ts'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useLanguage } from '../texts.ts'
import { AddByName } from './add-by-name.tsx'
import { NoticeLine } from './notice-line.tsx'
import { AllPutAway } from './put-away.tsx'
import { ThrowAway } from './throw-away.tsx'
import { useWorkshopWords } from './use-workshop-words.ts'

export interface ProcedureListProps {
  readonly workshop: Workshop
  readonly list: Extract<Place, { kind: 'list' }>
}

/** What is offered, who works by it, and what is in the making. */
export function ProcedureList({ workshop, list: { overview, unsaved, failure, notice } }: ProcedureListProps) {
  const words = useWorkshopWords()
  const language = useLanguage()
  const fileId = useId()
  const { procedures, drafts } = overview
  const draftOf = (id: string) => drafts.find((one) => one.id === id) ?? null
  const begun = new Set([...drafts.map(({ id }) => id), ...unsaved])
  const fresh = [...begun].filter((id) => procedures.every((one) => one.id !== id))
  return (
    <>
      {notice && <NoticeLine notice={notice} />}
      {failure && (
        <div class="state-note" role="alert">
          <p>{failure.kind === 'unreachable' ? words.away : words.failed(serverSaid(failure))}</p>
          <Press onPress={() => void workshop.list()}>{words.look}</Press>
        </div>
      )}
      {procedures.length === 0 && failure === null && <p class="state-note">{words.none}</p>}
      <ul class="cards">
        {procedures.map((listing) => (
          <Card
            key={listing.id}
            workshop={workshop}
            listing={listing}
            draft={draftOf(listing.id)}
            isUnsaved={unsaved.includes(listing.id)}
          />
        ))}
      </ul>
      {fresh.length > 0 && (
        <section class="draft-form">
          <h2>{words.newDrafts}</h2>
          {fresh.map((id) => (
            <div key={id} class="draft-entry">
              <b>{id}</b>
              <DraftStanding draft={draftOf(id)} isUnsaved={unsaved.includes(id)} />
              <div class="draft-row">
                <Press onPress={() => void workshop.open(id)}>{words.goOn}</Press>
                <ThrowAway onThrowAway={() => void workshop.throwAway(id, draftOf(id)?.revision ?? null)} />
              </div>
            </div>
          ))}
        </section>
      )}
      <AllPutAway workshop={workshop} all={overview.putAway} />
      <section class="draft-form">
        <h2>{words.create}</h2>
        <AddByName label={words.createTitle} onAdd={(title) => workshop.create(title, language).then(() => true)} />
        <div class="field">
          <label for={fileId}>{words.takeIn}</label>
          <input
            id={fileId}
            type="file"
            accept=".yaml,.yml,application/yaml,text/yaml"
            onChange={({ currentTarget }) => {
              const [file] = currentTarget.files ?? []
              if (file) void file.text().then((text) => workshop.takeIn(text))
            }}
          />
        </div>
      </section>
    </>
  )
}

interface StandingOfDraft {
  /** The server's. */
  readonly draft: DraftListing | null
  /** Whether this device has something of it that the server has not. */
  readonly isUnsaved: boolean
}

function DraftStanding({ draft, isUnsaved }: StandingOfDraft) {
  const words = useWorkshopWords()
  const { zone } = useSurroundings()
  const language = useLanguage()
  return (
    <>
      {draft && <p>{words.draftBy(draft.by, shopDateTime(draft.at, zone, language))}</p>}
      {isUnsaved && <p>{words.saving['only-here']}</p>}
    </>
  )
}

interface CardProps extends StandingOfDraft {
  readonly workshop: Workshop
  readonly listing: WorkshopListing
}

function Card({ workshop, listing, draft, isUnsaved }: CardProps) {
  const words = useWorkshopWords()
  const { app, zone } = useSurroundings()
  const { language } = app.manner()
  const { id, title, machine, hash, file, release, uses } = listing
  const when = release && shopDateTime(release.at, zone, language)
  const isBegun = draft !== null || isUnsaved
  const begin = isBegun ? words.goOn : words.edit
  return (
    <li>
      <article class="card">
        <h2 class="card-title">{textFor(title, language)}</h2>
        <p>{textFor(machine, language)}</p>
        <p class="card-summary">
          {release && when !== null
            ? release.by === ''
              ? words.heldAnew(when)
              : words.publishedBy(release.by, when)
            : words.fromFile}
        </p>
        {release && !release.followsFile && file !== null && file !== hash && <p>{words.newerFile}</p>}
        {uses.length > 0 && (
          <ul>
            {uses.slice(0, 4).map((use) => (
              <li key={`${use.hash} ${use.site} ${use.machine}`}>
                {words.uses(use.machine, use.site, use.runs, use.open)}
                {use.hash !== hash && ` (${words.olderVersion})`}
              </li>
            ))}
          </ul>
        )}
        <DraftStanding draft={draft} isUnsaved={isUnsaved} />
        <div class="draft-row">
          <Press label={`${begin}: ${textFor(title, language)}`} onPress={() => void workshop.open(id)}>
            {begin}
          </Press>
          <Press label={`${words.versions}: ${textFor(title, language)}`} onPress={() => void workshop.versions(id)}>
            {words.versions}
          </Press>
          {isBegun && <ThrowAway onThrowAway={() => void workshop.throwAway(id, draft?.revision ?? null)} />}
        </div>
      </article>
    </li>
  )
}
