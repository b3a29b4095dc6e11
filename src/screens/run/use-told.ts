import { useStore } from '../use-store.ts'
import type { Told } from '../../core/talk/call-words.ts'
import { useRun, useSurroundings } from '../surroundings.ts'

/** What the words of a call are made from. Renders again when the run or a setting changes, not with every tick. */
export function useTold(): Told {
  const { session, conductor } = useRun()
  const { app } = useSurroundings()
  useStore(app.$settings)
  const { course, run } = useStore(session.$state)
  return { course, run, at: conductor.$now.get(), manner: app.manner(), device: session.device, outlook: null }
}
