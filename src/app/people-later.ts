/** The one desk for people of this page, loaded when somebody first asks for it. */
import { once } from './once.ts'
import type { PeopleDesk } from './people-desk.ts'
import type { Ports } from './ports.ts'

export function peopleLater(
  { accounts, clock, log }: Pick<Ports, 'accounts' | 'clock' | 'log'>,
  onPaired: () => void
): () => Promise<PeopleDesk> {
  return once(async () => {
    const [{ openPeopleDesk }, link] = await Promise.all([import('./people-desk.ts'), accounts()])
    return openPeopleDesk({ link, clock, log, onPaired })
  })
}
