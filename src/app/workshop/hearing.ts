/** A draft read aloud: in the rendered voice where the server has one, else in the device's own. */
import { atom, type ReadableAtom } from 'nanostores'
import { likelyLanguage, talkIn } from '../../core/talk/languages.ts'
import type { Ports } from '../ports.ts'

export interface ToHear {
  /** What is shown as being said, such as the id of a step. */
  readonly key: string
  readonly language: string
  /** As it is written, one after the other. */
  readonly texts: readonly string[]
}

export interface Hearing {
  /** The key of what is being said; null in silence. */
  readonly $saying: ReadableAtom<string | null>
  /** Call from inside a tap: it unlocks sound. Ends what was being said. */
  hear(all: readonly ToHear[]): void
  stop(): void
}

export function openHearing({ mouth, alarm, clips }: Pick<Ports, 'mouth' | 'alarm' | 'clips'>): Hearing {
  const $saying = atom<string | null>(null)
  let hearings = 0

  async function sayAll(all: readonly ToHear[], hearing: number): Promise<void> {
    for (const { key, language, texts } of all) {
      const { speakable } = await talkIn(likelyLanguage([language]))
      const spoken = texts.filter((text) => text !== '').map((text) => speakable(text, clips.pronunciations()))
      if (hearing !== hearings) return
      $saying.set(key)
      await clips.prepare(spoken.flatMap(sentences), language)
      for (const text of spoken) {
        if (hearing !== hearings) return
        await mouth.say(text, language)
      }
    }
    if (hearing === hearings) $saying.set(null)
  }

  return {
    $saying,
    hear(all) {
      alarm.unlock()
      mouth.unlock()
      mouth.stop()
      hearings += 1
      void sayAll(all, hearings)
    },
    stop() {
      hearings += 1
      mouth.stop()
      $saying.set(null)
    }
  }
}

/** Clips are of sentences, as they are for a run. */
function sentences(spoken: string): readonly string[] {
  return spoken.split(/(?<=[.!?]) /).filter((sentence) => /[\p{L}\p{N}]/u.test(sentence))
}
