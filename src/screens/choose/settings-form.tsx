import { useStore } from '../use-store.ts'
import type { Settings } from '../../app/settings.ts'
import { Choice, Field } from '../parts/field.tsx'
import { useSurroundings } from '../surroundings.ts'

/** What this device remembers. Every change is kept at once. */
export function SettingsForm() {
  const { app, words } = useSurroundings()
  const settings = useStore(app.$settings)
  const change = (changed: Partial<Settings>) => app.$settings.set({ ...settings, ...changed })
  const { distances } = words.settings
  return (
    <details class="settings">
      <summary>{words.choose.settings}</summary>
      <div class="settings-fields">
        <Field
          label={words.settings.operator}
          value={settings.operator}
          autocomplete="name"
          longest={60}
          onValue={(operator) => change({ operator })}
        />
        <Field
          label={words.settings.site}
          value={settings.site}
          autocomplete="organization"
          longest={80}
          onValue={(site) => change({ site })}
        />
        <Choice
          label={words.settings.units}
          value={settings.units}
          options={[
            ['us', words.settings.us],
            ['metric', words.settings.metric]
          ]}
          onValue={(units) => change({ units })}
        />
        <Choice
          label={words.settings.distance}
          value={settings.distance}
          options={[
            ['hand', distances.hand],
            ['near', distances.near],
            ['far', distances.far]
          ]}
          onValue={(distance) => change({ distance })}
        />
      </div>
    </details>
  )
}
