/** What every screen can reach without it being handed down: the app, the words, and what a touch can mend. */
import type { ReadableAtom } from 'nanostores'
import { createContext } from 'preact'
import { useContext } from 'preact/hooks'
import type { App } from '../app/app.ts'
import type { UpdateOffer } from '../app/page-updates.ts'
import type { RunScreen } from '../app/run-screen.ts'
import type { SoundCheck } from '../app/sound-check.ts'
import type { TouchJudge } from '../app/touch-judge.ts'
import type { ScreenWords } from './words.en.ts'

export interface Surroundings {
  readonly app: App
  readonly words: ScreenWords
  /** Starts the ears, or tries them again after they went deaf. Only ever called from a touch. */
  readonly listen: () => void
  /** Tries loudspeaker and microphone before a run. */
  readonly loadCheck: () => Promise<SoundCheck>
  /** Lets a judge say which fingers on the screen count, until the returned function is called. */
  readonly watchTouches: (judge: TouchJudge) => Promise<() => void>
  /** The browser may delete what this device keeps, to make room. */
  readonly $mayBeCleared: ReadableAtom<boolean>
  /** Whether this page starts without the server, and whether a newer version waits. */
  readonly updates: UpdateOffer
  /** IANA zone of this device, for times that belong to no run. */
  readonly zone: string
}

export const SurroundingsContext = createContext<Surroundings | null>(null)
export const RunContext = createContext<RunScreen | null>(null)

export function useSurroundings(): Surroundings {
  const found = useContext(SurroundingsContext)
  if (!found) throw new Error('This part must stand inside <Screens>.')
  return found
}

export function useWords(): ScreenWords {
  return useSurroundings().words
}

export function useRun(): RunScreen {
  const found = useContext(RunContext)
  if (!found) throw new Error('This part must stand inside <Run>.')
  return found
}
