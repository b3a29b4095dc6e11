/** Which language this device speaks, shows and understands: that of whoever works at it. */
import { atom, type ReadableAtom, type WritableAtom } from 'nanostores'
import { talkIn, type Language, type Talk } from '../core/talk/languages.ts'
import type { Settings } from './settings.ts'

/** What an operator chose, by the name as written; the last choice on this device for somebody new. */
export function languageOf({ language, languages }: Settings, operator: string): Language {
  const name = operator.trim()
  return (Object.hasOwn(languages, name) ? languages[name] : undefined) ?? language
}

/** The settings after an operator chose. */
export function withLanguage(settings: Settings, operator: string, language: Language): Settings {
  const name = operator.trim()
  return {
    ...settings,
    language,
    languages: name === '' ? settings.languages : { ...settings.languages, [name]: language }
  }
}

export interface SpokenLanguage {
  readonly $talk: ReadableAtom<Talk>
  /** Whoever works here may be another now: `$talk` follows as soon as the language is there. */
  look(): Promise<void>
  /** Keeps it as the worker's own: what somebody else chooses later on this device does not change it. */
  keep(): void
}

/** `worker` names whoever works here now. Where another language cannot be loaded the last one stays; the next look tries again. */
export async function speakLanguage($settings: WritableAtom<Settings>, worker: () => string): Promise<SpokenLanguage> {
  const wanted = () => languageOf($settings.get(), worker())
  const $talk = atom(await talkIn(wanted()).catch(() => talkIn('en')))
  async function look(): Promise<void> {
    const language = wanted()
    if (language === $talk.get().language) return
    const talk = await talkIn(language).catch(() => null)
    if (talk && language === wanted()) $talk.set(talk)
  }
  $settings.listen(() => void look())
  return { $talk, look, keep: () => $settings.set(withLanguage($settings.get(), worker(), wanted())) }
}
