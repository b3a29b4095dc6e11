/** The queue between what should be said and the mouth: most urgent first, ears closed while anything sounds. */
import { atom, type ReadableAtom } from 'nanostores'
import type { Line, Priority } from '../core/talk/line.ts'
import { ended, hushed, next, SILENT, withLines, type Changed } from '../core/talk/queue.ts'
import type { Ports } from './ports.ts'

export interface Speaker {
  say(lines: readonly Line[]): void
  /** Ends and forgets everything to be said that is as urgent as `upTo` or less. */
  hush(upTo: Priority): void
  /** Runs `sound` (an alarm tone) with the ears closed, after cutting any speech that is less urgent. */
  over(sound: () => Promise<void>): Promise<void>
  /** Resolves once nothing sounds any more and the ears are open again; at once where that is so. */
  quiet(): Promise<void>
  /** What is being said now; stays on the screen until the next line. */
  readonly $line: ReadableAtom<Line | null>
  /** What was said within the last moments, once as written and once as spoken, for telling an echo from an operator. */
  lately(): readonly string[]
}

export interface SpeakerManner {
  readonly language: () => string
  /** How long the ears stay closed after the last sound, ms: rooms ring on. */
  readonly tailMs: () => number
  /** Figures and short forms written out, before any voice gets them. */
  readonly speakable: (text: string) => string
}

export function createSpeaker(
  { mouth, ears, clock }: Pick<Ports, 'mouth' | 'ears' | 'clock'>,
  { language, tailMs, speakable }: SpeakerManner
): Speaker {
  const $line = atom<Line | null>(null)
  let queue = SILENT
  let sounds = 0
  let cancelOpening: (() => void) | null = null
  let waiting: (() => void)[] = []
  let recent: { readonly written: string; readonly spoken: string; readonly until: number }[] = []

  function close(): void {
    sounds += 1
    cancelOpening?.()
    cancelOpening = null
    ears.gate()
  }

  function mayOpen(): void {
    sounds -= 1
    if (sounds > 0) return
    cancelOpening = clock.after(tailMs(), () => {
      cancelOpening = null
      ears.open()
      for (const tell of waiting) tell()
      waiting = []
    })
  }

  async function work(): Promise<void> {
    if (queue.saying) return
    queue = next(queue)
    const line = queue.saying
    if (!line) return
    // Another one each time, so that what is said again is told again.
    $line.set({ ...line })
    close()
    const spoken = speakable(line.text)
    await mouth.say(spoken, language(), line.pace)
    recent = [
      ...recent.filter((said) => said.until > clock.steady()),
      { written: line.text, spoken, until: clock.steady() + tailMs() + 1000 }
    ]
    queue = ended(queue)
    mayOpen()
    await work()
  }

  function change(changed: Changed): void {
    ;({ queue } = changed)
    if (changed.stop) mouth.stop()
  }

  return {
    say(lines) {
      if (lines.length === 0) return
      change(withLines(queue, lines))
      void work()
    },
    hush(upTo) {
      change(hushed(queue, upTo))
    },
    async over(sound) {
      if (queue.saying && queue.saying.priority !== 'alarm') mouth.stop()
      close()
      await sound()
      mayOpen()
    },
    quiet: () =>
      new Promise((isQuiet) => {
        if (sounds === 0 && cancelOpening === null && !queue.saying) isQuiet()
        else waiting = [...waiting, isQuiet]
      }),
    $line,
    lately() {
      const still = recent.filter((said) => said.until > clock.steady())
      return [still.map((said) => said.written).join(' '), still.map((said) => said.spoken).join(' ')]
    }
  }
}
