/** The languages Sidecall speaks and understands. */
import type { hear } from './hear.ts'
import type { SoundCheckWords } from './sound-check.en.ts'
import { soundCheckEn } from './sound-check.en.ts'
import type { Pronunciation } from './spoken/speakable.ts'
import type { Vocabulary } from './vocabulary.en.ts'
import type { Words } from './words.en.ts'
import { wordsEn } from './words.en.ts'

/** BCP 47, without a region: recognisers and voices take any. */
export const LANGUAGES = ['en', 'es'] as const
export type Language = (typeof LANGUAGES)[number]

/** Each in itself, so that whoever looks for it can read it. */
export const LANGUAGE_NAMES: Readonly<Record<Language, string>> = { en: 'English', es: 'Español' }

/** All that is said and heard in a language. */
export interface Talk {
  readonly language: Language
  readonly words: Words
  readonly vocabulary: Vocabulary
  /** The same in every language, and fetched with the words that it knows. */
  readonly hear: typeof hear
  readonly soundCheck: SoundCheckWords
  /** Figures, units and short forms written out for a voice, and a shop's own pronunciations. */
  readonly speakable: (text: string, own?: readonly Pronunciation[]) => string
}

/** English comes with the page, but for what only ears and a voice need; every other language as a piece of its own. */
export async function talkIn(language: Language): Promise<Talk> {
  switch (language) {
    case 'en': {
      const [{ vocabularyEn }, heard, { speakableEn }] = await Promise.all([
        import('./vocabulary.en.ts'),
        import('./hear.ts'),
        import('./spoken/english.ts')
      ])
      return {
        language,
        words: wordsEn,
        vocabulary: vocabularyEn,
        hear: heard.hear,
        soundCheck: soundCheckEn,
        speakable: speakableEn
      }
    }
    case 'es':
      return (await import('./spanish.ts')).SPANISH
  }
}

export function isLanguage(value: unknown): value is Language {
  return (LANGUAGES as readonly unknown[]).includes(value)
}

/** The first of the tags that somebody prefers which is spoken here; English otherwise. */
export function likelyLanguage(tags: readonly string[]): Language {
  return tags.map((tag) => tag.toLowerCase().split('-')[0]).find(isLanguage) ?? 'en'
}
