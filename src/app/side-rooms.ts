/** What the page shows beside runs. Each is loaded when somebody first asks for it. */
import type { ReadableAtom, WritableAtom } from 'nanostores'
import { textIn, type Manner } from '../core/talk/call-words.ts'
import type { Talk } from '../core/talk/languages.ts'
import type { PeopleDesk } from './people-desk.ts'
import type { Ports } from './ports.ts'
import type { ProcedureShelf } from './procedure-shelf.ts'
import type { RecordsDesk } from './records-desk.ts'
import type { Settings } from './settings.ts'
import type { View } from './view.ts'
import type { App } from './what-app-does.ts'
import type { Workshop } from './workshop/workshop.ts'

type SideRooms = Pick<App, 'showSums' | 'showPractice' | 'showRecords' | 'showPeople' | 'readWith' | 'showWorkshop'>

export interface SideRoomParts {
  readonly ports: Ports
  readonly $view: WritableAtom<View>
  readonly shelf: ProcedureShelf
  readonly manner: () => Manner
  readonly records: () => Promise<RecordsDesk>
  readonly people: () => Promise<PeopleDesk>
  readonly workshop: () => Promise<Workshop>
  /** Whose voice is practised, and in which language. */
  readonly $settings: ReadableAtom<Settings>
  readonly $talk: ReadableAtom<Talk>
}

export function openSideRooms(parts: SideRoomParts): SideRooms {
  const { ports, $view, shelf, manner, records, people, workshop, $settings, $talk } = parts
  const isFree = () => $view.get().kind === 'choose'
  const rooms: SideRooms = {
    async showSums() {
      const { rulesHere } = await import('./rules-shelf.ts')
      const rules = await rulesHere(ports)
      if (isFree()) $view.set({ kind: 'sums', rules })
    },
    async showPractice() {
      const [room, practice] = await Promise.all([import('./practice-room.ts'), ports.practice()])
      const { operator } = $settings.get()
      const { language, vocabulary } = $talk.get()
      const confirming = await room.confirmingPhrases(shelf, (text) => textIn(text, manner()))
      const what = { vocabulary, confirming }
      if (isFree()) $view.set({ kind: 'practice', room: room.practiceRoom(practice, { operator, language }, what) })
    },
    async showRecords() {
      const desk = await records()
      if (isFree()) $view.set({ kind: 'records', desk })
      await desk.list()
    },
    async showPeople() {
      const desk = await people()
      if ($view.get().kind !== 'run') $view.set({ kind: 'people', desk })
      await desk.look()
    },
    async readWith(token) {
      await (await people()).openLink(token)
      await rooms.showRecords()
    },
    async showWorkshop() {
      const shown = await workshop()
      if (isFree()) $view.set({ kind: 'workshop', workshop: shown })
      await shown.list()
    }
  }
  return rooms
}
