import type { PeopleDesk } from '../../app/people-desk.ts'
import { shopDateTime } from '../../app/shop-time.ts'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { useLanguage } from '../texts.ts'
import { useStore } from '../use-store.ts'
import { usePeopleWords } from './use-people-words.ts'

/** Who did what, the newest first. Nothing can be taken out of it. */
export function DeedLog({ desk }: { readonly desk: PeopleDesk }) {
  const texts = usePeopleWords()
  const { zone } = useSurroundings()
  const language = useLanguage()
  const deeds = useStore(desk.$deeds)
  const last = deeds?.at(-1)
  return (
    <section class="people-part">
      <h2>{texts.log}</h2>
      {deeds !== null && (
        <ul class="deeds">
          {deeds.map(({ id, at, by, device, what, about }) => (
            <li key={id}>
              <time>{shopDateTime(at, zone, language)}</time> <b>{by === '' ? texts.nobody : by}</b> {texts.deed(what)}
              {about !== '' && `: ${about}`}
              {device !== '' && `, ${texts.atDevice(device)}`}
            </li>
          ))}
        </ul>
      )}
      {(last === undefined || last.id > 1) && (
        <Press onPress={() => void desk.moreDeeds()}>{deeds === null ? texts.showLog : texts.more}</Press>
      )}
    </section>
  )
}
