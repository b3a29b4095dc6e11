/** Where an operator practises the phrases that the ears of this device listen for. */
import { atom, type ReadableAtom } from 'nanostores'
import type { Text } from '../core/procedure/procedure.ts'
import { spokenPhrases } from '../core/talk/spoken-phrases.ts'
import type { Vocabulary } from '../core/talk/vocabulary.en.ts'
import type { ProcedureShelf } from './procedure-shelf.ts'
import type { Practiser, PracticeNews, Sharing, VoicePractice } from '../ports/voice-practice.ts'

export const TAKES_WANTED = 3

/** What is to be told about the last thing heard. */
export type PracticeNotice = Exclude<PracticeNews, { kind: 'level' | 'sharing' }>

export interface Practising {
  readonly words: string
  /** Loudest sample of the last moment, 0 to 1. */
  readonly peak: number
  readonly notice: PracticeNotice | null
}

export interface PracticeRoom {
  readonly phrases: readonly string[]
  readonly $takes: ReadableAtom<ReadonlyMap<string, number>>
  /** Null while nobody is listened to. */
  readonly $practising: ReadableAtom<Practising | null>
  /** Listens for this phrase, and for the next that needs takes once there are enough of it. */
  start(words: string): void
  stop(): void
  /** Throws the takes of one phrase away, or of all. */
  forget(words: string | null): Promise<void>
  /** Takes that the ears learned from commands, beside those that were practised. */
  readonly $learned: ReadableAtom<number>
  forgetLearned(): Promise<void>
  /** Whether the server keeps this voice for the other devices of the shop; null until it is known. */
  readonly $sharing: ReadableAtom<Sharing | 'refused' | null>
  share(wanted: boolean): Promise<void>
}

export interface PractiseWhat {
  readonly vocabulary: Vocabulary
  /** Whole phrases that steps of the shop's procedures are confirmed with. */
  readonly confirming: readonly string[]
}

export function practiceRoom(
  practice: VoicePractice,
  who: Practiser,
  { vocabulary, confirming }: PractiseWhat
): PracticeRoom {
  const phrases = [...new Set([...spokenPhrases(vocabulary), ...confirming])]
  const $takes = atom<ReadonlyMap<string, number>>(new Map())
  const $practising = atom<Practising | null>(null)
  let stopListening = () => {}

  const $learned = atom(0)
  const $sharing = atom<Sharing | 'refused' | null>(null)

  const count = async () => {
    $takes.set(await practice.takes(who))
    $learned.set(await practice.learned(who))
    $sharing.set(await practice.sharing(who))
  }

  function start(words: string, notice: PracticeNotice | null = null): void {
    stopListening()
    $practising.set({ words, peak: 0, notice })
    stopListening = practice.practise(who, words, (news) => hear(words, news))
  }

  function stop(): void {
    stopListening()
    stopListening = () => {}
    $practising.set(null)
  }

  function hear(words: string, news: PracticeNews): void {
    if (news.kind === 'sharing') return $sharing.set(news.sharing)
    const now = $practising.get()
    if (now?.words !== words) return
    if (news.kind === 'level') return $practising.set({ ...now, peak: news.peak })
    $practising.set({ ...now, notice: news })
    if (news.kind === 'deaf') return stopListening()
    if (news.kind === 'fault') return
    $takes.set(new Map([...$takes.get(), [words, news.takes]]))
    if (news.kind === 'take' && news.takes >= TAKES_WANTED) goOn(words, news)
  }

  function goOn(words: string, notice: PracticeNotice): void {
    const at = phrases.indexOf(words)
    const next = [...phrases.slice(at + 1), ...phrases.slice(0, at)].find(
      (phrase) => ($takes.get().get(phrase) ?? 0) < TAKES_WANTED
    )
    if (next === undefined) stop()
    else start(next, notice)
  }

  void practice.use(who).then(count)
  return {
    phrases,
    $takes,
    $practising,
    start: (words) => start(words),
    stop,
    async forget(words) {
      await practice.forget(who, words)
      await count()
    },
    $learned,
    async forgetLearned() {
      await practice.forgetLearned(who)
      await count()
    },
    $sharing,
    async share(wanted) {
      // The server may take its time; what was decided is seen at once.
      $sharing.set(wanted ? 'to-be-shared' : 'to-be-withdrawn')
      $sharing.set(await practice.share(who, wanted))
    }
  }
}

/** In the order of the procedures; those of one language. */
export async function confirmingPhrases(
  shelf: Pick<ProcedureShelf, 'offered' | 'course'>,
  textOf: (text: Text) => string
): Promise<readonly string[]> {
  const { procedures } = await shelf.offered()
  const courses = await Promise.all(procedures.map(({ hash }) => shelf.course(hash)))
  const steps = courses.flatMap((course) => course?.procedure.stages.flatMap((stage) => stage.steps) ?? [])
  return steps.flatMap(({ confirm }) => (confirm ? [textOf(confirm).toLowerCase()] : []))
}
