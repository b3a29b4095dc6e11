/** A draft read aloud: in the rendered voice where the server has one, else in the device's own. */
import { atom, type ReadableAtom } from 'nanostores'
import type { SaidOfStep } from '../../core/procedure/edit/said-of-step.ts'
import { sentences } from '../../core/talk/clips/sentences.ts'
import { likelyLanguage, talkIn } from '../../core/talk/languages.ts'
import { inUnits, type UnitSystem } from '../../core/talk/quantities.ts'
import type { Words } from '../../core/talk/words.en.ts'
import type { Ports } from '../ports.ts'

export interface ToHear {
  /** What is shown as being said, such as the id of a step. */
  readonly key: string
  readonly language: string
  readonly units: UnitSystem
  /** One after the other. */
  readonly said: readonly SaidOfStep[]
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
    for (const { key, language, units, said } of all) {
      const { speakable, words } = await talkIn(likelyLanguage([language]))
      const spoken = said.map((one) => speakable(inUnits(asSaid(one, words), units), clips.pronunciations()))
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

/** In the words of a run. */
function asSaid(said: SaidOfStep, words: Words): string {
  switch (said.kind) {
    case 'text':
      return said.text
    case 'caution': {
      const { signal, hazard, consequence, avoid } = said
      if (signal !== null) return words.caution(words.signal(signal), hazard, consequence, avoid)
      return [hazard, consequence, avoid].join(' ')
    }
    case 'confirm':
      return words.confirmHint(said.phrase)
    case 'corrections':
      return words.correctionHint(said.actions)
  }
}
