import { useStore } from '../use-store.ts'
import { useEffect, useState } from 'preact/hooks'
import type { SoundCheck } from '../../app/sound-check.ts'
import type { Course } from '../../core/procedure/course.ts'
import { textIn } from '../../core/talk/call-words.ts'
import { Choice, Field } from '../parts/field.tsx'
import { LanguageChoice } from '../parts/language-choice.tsx'
import { later } from '../parts/later.tsx'
import { Press } from '../parts/press.tsx'
import { useSurroundings } from '../surroundings.ts'
import { PartList, SolutionList, SupplyList, ToolList } from './lists.tsx'
import { SoundCheckPart } from './sound-check-part.tsx'
import { VoiceNote } from './voice-note.tsx'
import { WornParts } from './worn-parts.tsx'
import { useGatherWords } from './use-gather-words.ts'

const Names = later(async () => (await import('../people/names.tsx')).Names)
const WholePlanView = later(async () => (await import('./whole-plan-view.tsx')).WholePlanView)

/** What to have at hand before the start, and who it is. */
export function Gather({ course }: { readonly course: Course }) {
  const gather = useGatherWords()
  const { app, words, loadCheck } = useSurroundings()
  const settings = useStore(app.$settings)
  const [asked, setAsked] = useState(false)
  const [check, setCheck] = useState<SoundCheck | null>(null)
  // Loaded beforehand: sound may only be unlocked inside the touch itself.
  useEffect(() => {
    void loadCheck().then(setCheck, () => undefined)
  }, [loadCheck])
  const { procedure } = course
  const name = settings.operator.trim()
  const nameless = name === ''

  // Sound may only be unlocked inside the touch itself, so nothing may be waited for before begin().
  function start(): void {
    if (nameless) return setAsked(true)
    // The run takes ears and mouth over.
    check?.end()
    void app.begin()
  }

  return (
    <main class="page gather">
      <header class="page-head">
        <Press onPress={() => void app.backToChoice()}>{words.back}</Press>
        <h1>
          {gather.title}: {textIn(procedure.title, app.manner())}
        </h1>
        <p class="label-first">{words.labelFirst}</p>
        <LanguageChoice operator={settings.operator} />
      </header>
      <p>{textIn(procedure.summary, app.manner())}</p>
      <p class="machine-note">{textIn(procedure.aboutMachine ?? procedure.machine, app.manner())}</p>
      <WholePlanView course={course} />
      <WornParts course={course} />
      <VoiceNote />
      {check && <SoundCheckPart check={check} />}
      <div class="lists">
        <SupplyList procedure={procedure} />
        <SolutionList procedure={procedure} />
        <PartList procedure={procedure} />
        <ToolList procedure={procedure} />
      </div>
      <Names
        name={settings.operator}
        person={settings.person}
        onChoose={(person) => app.$settings.set({ ...app.$settings.get(), operator: person.name, person })}
      />
      <footer class="start-bar">
        <Field
          label={gather.who}
          value={settings.operator}
          autocomplete="name"
          longest={60}
          {...(asked && nameless ? { hint: gather.whoMissing } : {})}
          onValue={(operator) => app.$settings.set({ ...settings, operator })}
        />
        <Choice
          label={gather.telling}
          value={settings.toldAll.includes(name) ? 'full' : 'brief'}
          options={[
            ['brief', gather.tellingBrief],
            ['full', gather.tellingFull]
          ]}
          onValue={(telling) => {
            const others = settings.toldAll.filter((other) => other !== name)
            app.$settings.set({ ...settings, toldAll: telling === 'full' ? [...others, name] : others })
          }}
        />
        <Press size="main" onPress={start}>
          {gather.start}
        </Press>
      </footer>
    </main>
  )
}
