/** The texts of every screen in the language of the page. */
import { createContext } from 'preact'
import { useContext, useEffect, useState } from 'preact/hooks'
import type { DueWords } from '../core/due/words.en.ts'
import type { RecordWords } from '../core/record/words.en.ts'
import type { SanitizerWords } from '../core/sanitizer/words.en.ts'
import type { Language } from '../core/talk/languages.ts'
import type { ChooseWords, SettingsWords } from './choose/words.en.ts'
import type { DamagedWords } from './damaged/words.en.ts'
import type { GatherWords } from './gather/words.en.ts'
import type { PeopleWords } from './people/words.en.ts'
import type { PracticeWords } from './practice/words.en.ts'
import type { RecordsScreenWords } from './records/words.en.ts'
import type { PanelWords } from './run/panel-words.en.ts'
import type { SumsWords } from './sums/words.en.ts'
import type { ScreenWords } from './words.en.ts'
import type { WorkshopWords } from './workshop/words.en.ts'

/** A file of texts each; another language has all of them in one piece. */
export interface Texts {
  readonly screens: ScreenWords
  readonly panels: PanelWords
  readonly choose: ChooseWords
  readonly settings: SettingsWords
  readonly gather: GatherWords
  readonly damaged: DamagedWords
  readonly practice: PracticeWords
  readonly people: PeopleWords
  readonly records: RecordsScreenWords
  readonly record: RecordWords
  readonly due: DueWords
  readonly sums: SumsWords
  readonly sanitizer: SanitizerWords
  readonly workshop: WorkshopWords
}

/** Null in English: its texts come with the screens that they stand on. */
export interface PageTexts {
  readonly language: Language
  readonly translated: Texts | null
}

export const TextsContext = createContext<PageTexts>({ language: 'en', translated: null })

export function useTexts<Name extends keyof Texts>(name: Name, english: Texts[Name]): Texts[Name] {
  return useContext(TextsContext).translated?.[name] ?? english
}

export function useLanguage(): Language {
  return useContext(TextsContext).language
}

/** Null until they are there for the first time; then the last ones stay until the others are. */
export function useTextsIn(language: Language): PageTexts | null {
  const [texts, setTexts] = useState<PageTexts | null>(language === 'en' ? { language, translated: null } : null)
  useEffect(() => {
    let isWanted = true
    const show = (translated: Texts | null, shown = language) => isWanted && setTexts({ language: shown, translated })
    if (language === 'en') show(null)
    else void textsIn(language).then(show, () => texts === null && show(null, 'en'))
    return () => {
      isWanted = false
    }
  }, [language])
  return texts
}

async function textsIn(language: Exclude<Language, 'en'>): Promise<Texts> {
  switch (language) {
    case 'es':
      return (await import('./texts.es.ts')).textsEs
  }
}
