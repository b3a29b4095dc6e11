/** Practice on this device: takes come from the engine, go to the store, and are what the ears go by from then on. */
import type { Takes } from '../../core/ears/phrasebook.ts'
import { TAKES } from '../../core/ears/practice.ts'
import type { Utterance } from '../../core/ears/utterance.ts'
import type { Practiser, PracticeNews, VoicePractice } from '../../ports/voice-practice.ts'
import type { VoiceShelf } from '../../ports/voice-shelf.ts'
import type { Engine, EngineFailure } from './engine.ts'
import type { PracticeTakes } from './practice-takes.ts'
import { sharedVoice } from './shared-voice.ts'

/** Beside those that were practised, so that the ears cannot drift away from them. */
const MOST_LEARNED = 3

const WHY_DEAF: Readonly<Record<EngineFailure, 'denied' | 'no-microphone' | 'no-models'>> = {
  'not-allowed': 'denied',
  'audio-capture': 'no-microphone',
  network: 'no-models'
}

export interface OwnVoice extends VoicePractice {
  /** Loads the ears and tells them of whom they listen to; false when they cannot be had now. */
  ready(): Promise<boolean>
}

export function voicePractice(engine: Engine, store: PracticeTakes, shelf: VoiceShelf): OwnVoice {
  const shared = sharedVoice(store, shelf)
  let current: Practiser | null = null
  /** A command that counted, until it is known that nobody took it back; `known` events were there by then. */
  let pending: { readonly words: string; readonly utterance: Utterance; readonly known: number } | null = null

  /** Models are heavy: only ears that are needed are told. What was learned counts from the next run on. */
  async function tellEngine(): Promise<void> {
    if (!current || !engine.isPrepared()) return
    const [practised, learned] = await Promise.all([store.of(current), store.learned(current)])
    engine.practised(practised.map((one) => ({ ...one, takes: [...one.takes, ...takesOf(learned, one.words)] })))
  }

  async function learn({ words, utterance }: NonNullable<typeof pending>): Promise<void> {
    if (!current) return
    const who = current
    // Somebody who never practised gets no voice of their own by the way.
    if (takesOf(await store.of(who), words).length === 0) return
    const takes = [...takesOf(await store.learned(who), words), utterance].slice(-MOST_LEARNED)
    await store.keepLearned(who, words, takes)
  }

  async function settled(who: Practiser): Promise<void> {
    // Ears work as well without what another device knows.
    await shared.settle(who).catch(() => {})
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
      pending = null
      await settled(who)
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
            const takes = [...takesOf(await store.of(who), words), take.utterance].slice(-TAKES)
            await store.keep(who, words, takes)
            await tellEngine()
            tell(
              soundsLike === null
                ? { kind: 'take', takes: takes.length }
                : { kind: 'sounds-like', other: soundsLike, takes: takes.length }
            )
            if (takes.length < TAKES) return
            await shared.changed(who)
            tell({ kind: 'sharing', sharing: await shared.now(who) })
          }
          keep().catch(() => tell({ kind: 'deaf', why: 'not-kept' }))
        }
      })
    },
    async forget(who, words) {
      // Kept first: a page that is closed halfway must not take the voice back from the server.
      if (words === null) await shared.withdrawLater(who)
      await store.forget(who, words)
      await tellEngine()
      if (words === null) await settled(who)
      else await shared.changed(who)
    },
    async cameOf(words, events, known) {
      const waiting = pending
      const heard = engine.lastCertain()
      const counts = events.slice(known).some(({ via, type }) => via === 'voice' && type !== 'refused')
      if (!counts) return
      pending = heard?.words === words ? { ...heard, known: events.length } : null
      if (waiting && !events.slice(waiting.known).some(({ type }) => type === 'taken-back')) await learn(waiting)
    },
    async learned(who) {
      return (await store.learned(who)).reduce((sum, { takes }) => sum + takes.length, 0)
    },
    async forgetLearned(who) {
      await store.forgetLearned(who)
      await tellEngine()
    },
    sharing: shared.now,
    share: shared.share
  }
}

function takesOf(all: readonly Takes[], words: string): Takes['takes'] {
  return all.find((one) => one.words === words)?.takes ?? []
}
