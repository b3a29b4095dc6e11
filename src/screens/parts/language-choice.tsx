import { useId } from 'preact/hooks'
import { languageOf, withLanguage } from '../../app/language.ts'
import { LANGUAGE_NAMES, LANGUAGES } from '../../core/talk/languages.ts'
import { useSurroundings } from '../surroundings.ts'
import { useStore } from '../use-store.ts'

/** The language of an operator, remembered with the name. Each language stands there in itself. */
export function LanguageChoice({ operator }: { readonly operator: string }) {
  const { app, words } = useSurroundings()
  const settings = useStore(app.$settings)
  const chosen = languageOf(settings, operator)
  const name = useId()
  return (
    <fieldset class="choice">
      <legend>{words.language}</legend>
      <div class="choice-options">
        {LANGUAGES.map((language) => (
          <label key={language} class="choice-option" lang={language}>
            <input
              type="radio"
              name={name}
              value={language}
              checked={language === chosen}
              onChange={() => app.$settings.set(withLanguage(settings, operator, language))}
            />
            <span>{LANGUAGE_NAMES[language]}</span>
          </label>
        ))}
      </div>
    </fieldset>
  )
}
