import { useStore } from '../use-store.ts'
import { LOOKS, type Settings } from '../../app/settings.ts'
import { Choice, Field } from '../parts/field.tsx'
import { useSurroundings } from '../surroundings.ts'
import { PedalForm } from './pedal-form.tsx'
import { ScreenSize } from './screen-size.tsx'
import { useChooseWords } from './use-choose-words.ts'
import { useTexts } from '../texts.ts'
import { settingsWordsEn } from './words.en.ts'

/** What this device remembers. Every change is kept at once. */
export function SettingsForm() {
  const choose = useChooseWords()
  const words = useTexts('settings', settingsWordsEn)
  const { distances } = words
  const { app } = useSurroundings()
  const settings = useStore(app.$settings)
  const change = (changed: Partial<Settings>) => app.$settings.set({ ...settings, ...changed })
  return (
    <details class="settings">
      <summary>{choose.settings}</summary>
      <div class="settings-fields">
        <Field
          label={words.operator}
          value={settings.operator}
          autocomplete="name"
          longest={60}
          onValue={(operator) => change({ operator })}
        />
        <Field
          label={words.site}
          value={settings.site}
          autocomplete="organization"
          longest={80}
          onValue={(site) => change({ site })}
        />
        <Choice
          label={words.units}
          value={settings.units}
          options={[
            ['us', words.us],
            ['metric', words.metric]
          ]}
          onValue={(units) => change({ units })}
        />
        <Choice
          label={words.room}
          value={settings.room}
          options={[
            ['usual', words.rooms.usual],
            ['echoing', words.rooms.echoing]
          ]}
          onValue={(room) => change({ room })}
        />
        <Choice
          label={words.attention}
          value={settings.attention}
          options={[
            ['none', words.attentions.none],
            ['word', words.attentions.word]
          ]}
          onValue={(attention) => change({ attention })}
        />
        <Choice
          label={words.distance}
          value={settings.distance}
          options={[
            ['hand', distances.hand],
            ['near', distances.near],
            ['far', distances.far]
          ]}
          onValue={(distance) => change({ distance })}
        />
        <ScreenSize pixelsPerMm={settings.pixelsPerMm} onMeasured={(pixelsPerMm) => change({ pixelsPerMm })} />
        <Choice
          label={words.look}
          value={settings.look}
          options={LOOKS.map((look) => [look, words.looks[look]] as const)}
          onValue={(look) => change({ look })}
        />
        <PedalForm settings={settings} change={change} />
      </div>
    </details>
  )
}
