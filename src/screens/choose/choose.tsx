import { useStore } from '../use-store.ts'
import type { Offers } from '../../app/app.ts'
import { serverSaid } from '../../app/server-said.ts'
import { LanguageChoice } from '../parts/language-choice.tsx'
import { later } from '../parts/later.tsx'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { OpenRuns } from './open-runs.tsx'
import { ProcedureCard } from './procedure-card.tsx'
import { useChooseWords } from './use-choose-words.ts'

const Faults = later(async () => (await import('./faults.tsx')).Faults)
const KeptCopy = later(async () => (await import('./kept-copy.tsx')).KeptCopy)
const Today = later(async () => (await import('../records/today.tsx')).Today)
const SettingsForm = later(async () => (await import('./settings-form.tsx')).SettingsForm)

/** The first screen: what can be begun, and what is not over yet. `offers` is null while they are looked for. */
export function Choose({ offers }: { readonly offers: Offers | null }) {
  const choose = useChooseWords()
  const { app, words, $mayBeCleared } = useSurroundings()
  const { operator } = useStore(app.$settings)
  const mayBeCleared = useStore($mayBeCleared)
  return (
    <main class="page day">
      <header class="page-head">
        <p class="brand">{words.name}</p>
        <h1>{choose.title}</h1>
        <LanguageChoice operator={operator} />
      </header>
      {offers === null ? (
        <p class="state-note" role="status">
          {choose.loading}
        </p>
      ) : (
        <OffersNotes offers={offers} />
      )}
      <div class="day-columns">
        <div class="day-work">
          {offers !== null && <Offered offers={offers} />}
          {/* After the cards: it comes late, and must not move what somebody is about to touch. */}
          <Today offered={offers?.procedures.map(({ id }) => id) ?? []} />
        </div>
        <nav class="day-more" aria-label={choose.more}>
          <Press onPress={() => void app.showRecords()}>{choose.records}</Press>
          <Press onPress={() => void app.showWorkshop()}>{choose.workshop}</Press>
          <Press onPress={() => void app.showPractice()}>{choose.practice}</Press>
          <Press onPress={() => void app.showSums()}>{choose.sums}</Press>
          <Press onPress={() => void app.showPeople()}>{choose.people}</Press>
          <SettingsForm />
          <p class="label-first">{words.labelFirst}</p>
          {mayBeCleared && <p class="state-note">{choose.mayBeCleared}</p>}
          <KeptCopy />
        </nav>
      </div>
    </main>
  )
}

/** What hinders: the server, the store, files of procedures. */
function OffersNotes({ offers }: { readonly offers: Offers }) {
  const choose = useChooseWords()
  const { app } = useSurroundings()
  return (
    <>
      {offers.failure !== null && (
        <div class="state-note" role="alert">
          <p>
            {offers.failure.kind === 'unreachable' ? choose.unreachable : choose.failed(serverSaid(offers.failure))}
          </p>
          <Press onPress={() => void app.list()}>{choose.again}</Press>
        </div>
      )}
      {offers.unreadable > 0 && (
        <p class="state-note" role="alert">
          {choose.unreadable(offers.unreadable)}
        </p>
      )}
      {offers.procedures.length === 0 && offers.failure === null && <p class="state-note">{choose.none}</p>}
      {offers.faults.length > 0 && <Faults faults={offers.faults} />}
    </>
  )
}

function Offered({ offers }: { readonly offers: Offers }) {
  return (
    <>
      {offers.openRuns.length > 0 && <OpenRuns offers={offers} />}
      {offers.procedures.length > 0 && (
        <ul class="cards">
          {offers.procedures.map((listing) => (
            <ProcedureCard key={listing.hash} listing={listing} />
          ))}
        </ul>
      )}
    </>
  )
}
