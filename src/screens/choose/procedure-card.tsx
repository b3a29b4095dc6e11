import type { Offers } from '../../app/app.ts'
import { textIn } from '../../core/talk/call-words.ts'
import { later } from '../parts/later.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useChooseWords } from './use-choose-words.ts'

const DueMark = later(async () => (await import('../records/due-mark.tsx')).DueMark)

/** One procedure, to be touched as a whole. */
export function ProcedureCard({ listing }: { readonly listing: Offers['procedures'][number] }) {
  const choose = useChooseWords()
  const { app } = useSurroundings()
  const manner = app.manner()
  return (
    <li>
      <button type="button" class="card" onClick={() => void app.choose(listing.hash)}>
        <span class="card-title">{textIn(listing.title, manner)}</span>
        <span class="card-facts">
          {listing.example && <span class="card-example">{choose.example}</span>}
          <span>{choose.sides(listing.sides.map(({ name }) => textIn(name, manner)))}</span>
          {listing.aboutSeconds !== null && <span>{choose.about(listing.aboutSeconds * 1000)}</span>}
        </span>
        <span class="card-due">
          <DueMark procedure={listing.id} />
        </span>
      </button>
    </li>
  )
}
