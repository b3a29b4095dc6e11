import { useState } from 'preact/hooks'
import type { Offers } from '../../app/app.ts'
import type { OpenRun } from '../../app/open-runs.ts'
import { shopDateTime } from '../../app/shop-time.ts'
import { textIn } from '../../core/talk/call-words.ts'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useLanguage } from '../texts.ts'
import { useChooseWords } from './use-choose-words.ts'

/** More than these would push today's work off the screen. */
const MOST_SHOWN = 2

/** Runs that somebody began and nobody has ended, the newest first. */
export function OpenRuns({ offers }: { readonly offers: Offers }) {
  const choose = useChooseWords()
  const { app, zone } = useSurroundings()
  const language = useLanguage()
  const [all, setAll] = useState(false)
  const runs = offers.openRuns.toSorted((a, b) => b.lastAt - a.lastAt)
  const shown = all ? runs : runs.slice(0, MOST_SHOWN)
  const titleOf = ({ procedureHash, procedureId }: OpenRun): string => {
    const listing =
      offers.procedures.find(({ hash }) => hash === procedureHash) ??
      offers.procedures.find(({ id }) => id === procedureId)
    return listing ? textIn(listing.title, app.manner()) : procedureId
  }
  return (
    <section class="open-runs" aria-labelledby="open-runs-title">
      <h2 id="open-runs-title">{choose.open}</h2>
      <ul>
        {shown.map((run) => (
          <li key={run.runId} class="open-run">
            <div>
              <p class="open-run-title">{titleOf(run)}</p>
              <p>
                {choose.startedBy(run.operator, shopDateTime(run.startedAt, zone, language))}
                {', '}
                {choose.lastSeen(shopDateTime(run.lastAt, zone, language))}
              </p>
            </div>
            <Press size="work" onPress={() => void app.resume(run)}>
              {choose.goOn}
            </Press>
          </li>
        ))}
      </ul>
      {shown.length < runs.length && <Press onPress={() => setAll(true)}>{choose.allOpen(runs.length)}</Press>}
    </section>
  )
}
