import { useStore } from '../use-store.ts'
import { guardsOf, type Guard } from '../../app/guards.ts'
import { useSurroundings } from '../surroundings.ts'

export function useGuards(): readonly Guard[] {
  const { app } = useSurroundings()
  return guardsOf({
    ears: useStore(app.$ears),
    mouth: useStore(app.$mouth),
    alarm: useStore(app.$alarm),
    screenLock: useStore(app.$screenLock),
    link: useStore(app.$link),
    clock: useStore(app.$clock),
    voiceElsewhere: useStore(app.$voiceElsewhere),
    lockReach: useStore(app.$lockReach)
  })
}
