/** Renders, in the background, whatever the published procedures can say, and tells what is ready. */
import type { Procedure } from '../../src/core/procedure/procedure.ts'
import type { SpeechManifest } from '../../src/core/talk/clips/speech-manifest.ts'
import type { Pronunciation } from '../../src/core/talk/spoken/speakable.ts'
import type { Records } from '../storage/records.ts'
import type { ClipStore } from './clip-store.ts'
import type { Renderer } from './render-clip.ts'
import { rendering } from './rendering.ts'

export interface Speech {
  /**
   * Null when there is no such version, or no voice for that language (BCP 47). What is missing for it is rendered next.
   */
  manifest(procedureHash: string, language: string): Promise<SpeechManifest | null>
  /**
   * Clips of texts as spoken in a language, rendered now where they are missing; what cannot be said has none. Null where
   * there is no voice for it.
   */
  clipsFor(spoken: readonly string[], language: string): Promise<SpeechManifest | null>
  /** A WAV file; null when it is not here. */
  clip(hash: string): Promise<Uint8Array<ArrayBuffer> | null>
  /** Renders for every current procedure; resolves when all is done, or cannot go on. */
  renderAll(): Promise<void>
  end(): void
}

/** One language; devices speak the others with a voice of their own. */
export interface Voice {
  readonly language: string
  /** All that can be said in a run of a procedure, as spoken; nothing where it is not written in this language. */
  readonly plan: (procedure: Procedure) => readonly string[]
  readonly store: ClipStore
  readonly render: Renderer
}

export interface SpeechParts {
  readonly records: Pick<Records, 'currentProcedures' | 'procedure'>
  /** The first is rendered first. */
  readonly voices: readonly Voice[]
  readonly pronunciations: readonly Pronunciation[]
  readonly log: (message: string) => void
}

export function createSpeech({ records, voices, pronunciations, log }: SpeechParts): Speech {
  const speaking = voices.map((voice) => ({ ...voice, ...rendering(voice, log) }))
  const voiceFor = (language: string) => speaking.find((one) => one.language === language)
  return {
    async manifest(hash, language) {
      const voice = voiceFor(language)
      const canonical = voice ? await records.procedure(hash) : null
      if (!voice || canonical === null) return null
      const plan = voice.planned(hash, JSON.parse(canonical) as Procedure)
      voice.ask(plan, 'next')
      return { language, total: plan.filter(voice.canSay).length, clips: keptIn(voice.store, plan), pronunciations }
    },
    async clipsFor(texts, language) {
      const voice = voiceFor(language)
      if (!voice) return null
      const spoken = [...new Set(texts)]
      await voice.now(spoken)
      const clips = keptIn(voice.store, spoken)
      return { language, total: clips.length, clips, pronunciations }
    },
    async clip(hash) {
      for (const { store } of speaking) {
        const found = await store.read(hash)
        if (found) return found
      }
      return null
    },
    async renderAll() {
      const current = await records.currentProcedures()
      for (const voice of speaking) {
        for (const { hash, procedure } of current) voice.ask(voice.planned(hash, procedure), 'later')
        await voice.settled()
      }
    },
    end() {
      for (const voice of speaking) voice.end()
    }
  }
}

function keptIn(store: ClipStore, texts: readonly string[]): SpeechManifest['clips'] {
  return texts.flatMap((spoken) => {
    const kept = store.find(spoken)
    return kept ? [{ spoken, hash: kept.hash, bytes: kept.bytes, ms: kept.ms }] : []
  })
}
