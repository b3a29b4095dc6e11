/** Practice on this device: takes come from the engine, go to the store, and are what the ears go by from then on. */
import { TAKES } from '../../core/ears/practice.ts'
import type { Practiser, PracticeNews, VoicePractice } from '../../ports/voice-practice.ts'
import type { Engine, EngineFailure } from './engine.ts'
import type { PracticeTakes } from './practice-takes.ts'

const WHY_DEAF: Readonly<Record<EngineFailure, 'denied' | 'no-microphone' | 'no-models'>> = {
  'not-allowed': 'denied',
  'audio-capture': 'no-microphone',
  network: 'no-models'
}

export interface OwnVoice extends VoicePractice {
  /** Loads the ears and tells them of whom they listen to; false when they cannot be had now. */
  ready(): Promise<boolean>
}

export function voicePractice(engine: Engine, store: PracticeTakes): OwnVoice {
  let current: Practiser | null = null

  /** Models are heavy: only ears that are needed are told. */
  async function tellEngine(): Promise<void> {
    if (current && engine.isPrepared()) engine.practised(await store.of(current))
  }

  return {
    async ready() {
      if (!(await engine.prepare())) return false
      // Without what was practised they still hear, less well.
      await tellEngine().catch(() => {})
      return true
    },
    async use(who) {
      current = who
      await tellEngine()
    },
    async takes(who) {
      return new Map((await store.of(who)).map(({ words, takes }) => [words, takes.length]))
    },
    practise(who, words, tell: (news: PracticeNews) => void) {
      return engine.stream(words, {
        began() {},
        failed: (why) => tell({ kind: 'deaf', why: WHY_DEAF[why] }),
        told(message) {
          if (message.kind === 'level') return tell({ kind: 'level', peak: message.peak })
          if (message.kind !== 'take') return
          const { take, soundsLike } = message
          if (take.fault !== null) return tell({ kind: 'fault', fault: take.fault })
          const keep = async () => {
            const kept = (await store.of(who)).find((one) => one.words === words)?.takes ?? []
            const takes = [...kept, take.utterance].slice(-TAKES)
            await store.keep(who, words, takes)
            await tellEngine()
            tell(
              soundsLike === null
                ? { kind: 'take', takes: takes.length }
                : { kind: 'sounds-like', other: soundsLike, takes: takes.length }
            )
          }
          keep().catch(() => tell({ kind: 'deaf', why: 'not-kept' }))
        }
      })
    },
    async forget(who, words) {
      await store.forget(who, words)
      await tellEngine()
    }
  }
}
