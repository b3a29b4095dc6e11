/** Renders, in the background, whatever the published procedures can say, and tells what is ready. */
import { layOut } from '../../src/core/procedure/course.ts'
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import { sayable } from '../../src/core/talk/clips/sayable.ts'
import type { SpeechManifest } from '../../src/core/talk/clips/speech-manifest.ts'
import type { Pronunciation } from '../../src/core/talk/spoken/speakable.ts'
import { soundCheckEn } from '../../src/core/talk/sound-check.en.ts'
import { speakableEn } from '../../src/core/talk/spoken/english.ts'
import { wordsEn } from '../../src/core/talk/words.en.ts'
import type { Records } from '../storage/records.ts'
import type { ClipStore } from './clip-store.ts'
import type { Renderer } from './render-clip.ts'

export interface Speech {
  /** Null when there is no such version. What is missing for it is rendered next. */
  manifest(procedureHash: string): Promise<SpeechManifest | null>
  /** Clips of texts as spoken, rendered now where they are missing; what cannot be said has none. */
  clipsFor(spoken: readonly string[]): Promise<SpeechManifest>
  /** A WAV file; null when it is not here. */
  clip(hash: string): Promise<Uint8Array<ArrayBuffer> | null>
  /** Renders for every current procedure; resolves when all is done, or cannot go on. */
  renderAll(): Promise<void>
  end(): void
}

export interface SpeechParts {
  readonly records: Pick<Records, 'currentProcedures' | 'procedure'>
  readonly store: ClipStore
  readonly render: Renderer
  readonly pronunciations: readonly Pronunciation[]
  readonly log: (message: string) => void
}

/** The embedded voice speaks English only; other languages are left to the device's own voice. */
const LANGUAGE = 'en'
const MOST_PLANS = 50

export function createSpeech({ records, store, render, pronunciations, log }: SpeechParts): Speech {
  const plans = new Map<string, readonly string[]>()
  /** What cannot be said is not tried again until the next start. */
  const hopeless = new Set<string>()
  let waiting = new Set<string>()
  let working: Promise<void> | null = null
  let ended = false

  function planned(hash: string, procedure: Procedure): readonly string[] {
    const known = plans.get(hash)
    if (known) return known
    const { own, shared } = sayable(
      layOut(procedure),
      { language: LANGUAGE, words: { ...wordsEn, ...soundCheckEn } },
      (text) => speakableEn(text, pronunciations)
    )
    const plan = procedure.languages.includes(LANGUAGE) ? [...own, ...shared] : []
    if (plans.size >= MOST_PLANS) plans.clear()
    plans.set(hash, plan)
    return plan
  }

  function ask(plan: readonly string[], when: 'next' | 'later'): void {
    const missing = plan.filter((spoken) => store.find(spoken) === null && !hopeless.has(spoken))
    waiting = new Set(when === 'next' ? [...missing, ...waiting] : [...waiting, ...missing])
    working ??= work().finally(() => {
      working = null
    })
  }

  async function work(): Promise<void> {
    for (let [spoken] = waiting; spoken !== undefined && !ended; [spoken] = waiting) {
      waiting.delete(spoken)
      const clip = await render(spoken)
      if (clip === null) {
        hopeless.add(spoken)
        continue
      }
      const kept = store.keep(spoken, clip)
      if (typeof kept === 'string') {
        log(`Spoken clips cannot be kept (${kept}). Devices use their own voice until there is room and a new start.`)
        ended = true
      }
    }
  }

  const keptFor = (plan: readonly string[]) =>
    plan.flatMap((spoken) => {
      const kept = store.find(spoken)
      return kept ? [{ spoken, hash: kept.hash, bytes: kept.bytes, ms: kept.ms }] : []
    })

  return {
    async clipsFor(texts) {
      const spoken = [...new Set(texts)]
      for (const text of spoken) {
        if (store.find(text) !== null || hopeless.has(text) || ended) continue
        const clip = await render(text)
        if (clip === null) hopeless.add(text)
        else store.keep(text, clip)
      }
      const clips = keptFor(spoken)
      return { language: LANGUAGE, total: clips.length, clips, pronunciations }
    },
    async manifest(hash) {
      const canonical = await records.procedure(hash)
      if (canonical === null) return null
      const plan = planned(hash, JSON.parse(canonical) as Procedure)
      ask(plan, 'next')
      const clips = keptFor(plan)
      return { language: LANGUAGE, total: plan.filter((spoken) => !hopeless.has(spoken)).length, clips, pronunciations }
    },
    clip: (hash) => store.read(hash),
    async renderAll() {
      for (const { hash, procedure } of await records.currentProcedures()) ask(planned(hash, procedure), 'later')
      await working
    },
    end() {
      ended = true
    }
  }
}
