import './colours.css'
import './type.css'
import './look.css'
import { useStore } from './use-store.ts'
import { useEffect } from 'preact/hooks'
import type { ReadableAtom } from 'nanostores'
import type { RunScreen } from '../app/run-screen.ts'
import { FailureNote } from './parts/failure-note.tsx'
import { fetchParts, later } from './parts/later.tsx'
import { Run } from './run/run.tsx'
import { SurroundingsContext, type Surroundings } from './surroundings.ts'
import { TextsContext, useTextsIn } from './texts.ts'
import type { ScreenWords } from './words.en.ts'

/** What stands on the screen comes first; what nobody asks for at once may come after it. */
const FETCH_AFTER_MS = 2000

/** On its way while the app finds out where it was. */
const choose = import('./choose/choose.tsx')
const Choose = later(async () => (await choose).Choose)
const Damaged = later(async () => (await import('./damaged/damaged.tsx')).Damaged)
const Gather = later(async () => (await import('./gather/gather.tsx')).Gather)
const Records = later(async () => (await import('./records/records.tsx')).Records)
const People = later(async () => (await import('./people/people.tsx')).People)
const Practice = later(async () => (await import('./practice/practice.tsx')).Practice)
const WorkshopScreen = later(async () => (await import('./workshop/workshop.tsx')).WorkshopScreen)
const Sums = later(async () => (await import('./sums/sums.tsx')).Sums)

export interface ScreensProps {
  readonly surroundings: Surroundings
  readonly $runScreen: ReadableAtom<RunScreen | null>
}

/** What stands there until the app knows where it was. */
export function Starting({ words }: { readonly words: ScreenWords }) {
  return (
    <main class="page">
      <p class="state-note" role="status">
        {words.starting}
      </p>
    </main>
  )
}

/** Everything the page shows. */
export function Screens({ surroundings, $runScreen }: ScreensProps) {
  const { app } = surroundings
  const view = useStore(app.$view)
  const runScreen = useStore($runScreen)
  const texts = useTextsIn(useStore(app.$talk).language)
  useEffect(() => {
    const timer = setTimeout(fetchParts, FETCH_AFTER_MS)
    return () => clearTimeout(timer)
  }, [view.kind])
  useEffect(() => {
    if (texts) document.documentElement.lang = texts.language
  }, [texts])
  if (!texts) return <Starting words={surroundings.words} />
  const words = texts.translated?.screens ?? surroundings.words
  return (
    <TextsContext.Provider value={texts}>
      <SurroundingsContext.Provider value={{ ...surroundings, words }}>
        {view.kind === 'choose' && <Choose offers={view.offers} />}
        {view.kind === 'damaged' && <Damaged view={view} />}
        {view.kind === 'gather' && <Gather course={view.course} />}
        {view.kind === 'records' && <Records desk={view.desk} />}
        {view.kind === 'people' && <People desk={view.desk} />}
        {view.kind === 'practice' && <Practice room={view.room} />}
        {view.kind === 'workshop' && <WorkshopScreen workshop={view.workshop} />}
        {view.kind === 'sums' && <Sums rules={view.rules} />}
        {view.kind === 'run' && runScreen && (
          <Run key={runScreen.session.$state.get().run.id} screen={runScreen} needsTap={view.needsTap} />
        )}
        <FailureNote />
      </SurroundingsContext.Provider>
    </TextsContext.Provider>
  )
}
