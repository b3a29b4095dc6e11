import { useEffect, useState } from 'preact/hooks'
import { canBeTaught, forgotten, PEDAL_MEANINGS, switchOf, taught, type PedalMeaning } from '../../app/pedal.ts'
import { ONE_SWITCH_MS, type Settings } from '../../app/settings.ts'
import { Choice } from '../parts/field.tsx'
import { Press } from '../parts/press.tsx'
import { useTexts } from '../texts.ts'
import { settingsWordsEn } from './words.en.ts'

export interface PedalFormProps {
  readonly settings: Settings
  readonly change: (changed: Partial<Settings>) => void
}

/** Teaches the switches of a pedal or remote what they mean, and says how many there are. */
export function PedalForm({ settings, change }: PedalFormProps) {
  const words = useTexts('settings', settingsWordsEn).pedal
  const { pedal, oneSwitchMs } = settings
  const [teaching, setTeaching] = useState<PedalMeaning | null>(null)
  const [refused, setRefused] = useState(false)
  useEffect(() => {
    if (teaching === null) return
    function onKey(event: KeyboardEvent): void {
      event.preventDefault()
      event.stopPropagation()
      if (event.key === 'Escape') return setTeaching(null)
      if (!canBeTaught(event.code)) return setRefused(true)
      change({ pedal: taught(pedal, teaching as PedalMeaning, event.code) })
      setTeaching(null)
    }
    window.addEventListener('keydown', onKey, { capture: true })
    return () => window.removeEventListener('keydown', onKey, { capture: true })
  }, [teaching, pedal, change])
  return (
    <fieldset class="choice pedal">
      <legend>{words.title}</legend>
      <p>{words.how}</p>
      <ul>
        {PEDAL_MEANINGS.map((meaning) => {
          const code = switchOf(pedal, meaning)
          return (
            <li key={meaning} class="pedal-switch">
              <b>{words.meanings[meaning]}</b>
              <span role="status">
                {teaching === meaning ? (refused ? words.notThatOne : words.pressNow) : (code ?? words.usual[meaning])}
              </span>
              <Press
                pressed={teaching === meaning}
                label={`${words.teach}: ${words.meanings[meaning]}`}
                onPress={() => {
                  setRefused(false)
                  setTeaching(teaching === meaning ? null : meaning)
                }}
              >
                {words.teach}
              </Press>
              {code !== null && (
                <Press
                  label={`${words.forget}: ${words.meanings[meaning]}`}
                  onPress={() => change({ pedal: forgotten(pedal, meaning) })}
                >
                  {words.forget}
                </Press>
              )}
            </li>
          )
        })}
      </ul>
      <Choice
        label={words.howMany}
        value={String(oneSwitchMs ?? 'several')}
        options={[
          ['several', words.several],
          ...ONE_SWITCH_MS.map((ms) => [String(ms), words.single(ms / 1000)] as const)
        ]}
        onValue={(chosen) => change({ oneSwitchMs: chosen === 'several' ? null : Number(chosen) })}
      />
    </fieldset>
  )
}
