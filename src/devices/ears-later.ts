/** Ears whose code comes after the first screen: nobody is listened to before something was shown. */
import type { Ears, EarsState, Heard } from '../ports/ears.ts'
import { listeners } from './listeners.ts'

export function earsLater(loading: Promise<Ears>): Ears {
  const heardBy = listeners<Heard>()
  const missedBy = listeners<readonly string[]>()
  const stateTo = listeners<EarsState>()
  let ears: Ears | null = null
  /** In the order in which they were asked for. */
  let waiting: ((to: Ears) => void)[] = []
  let wanted = false

  const tell = (what: (to: Ears) => void) => {
    if (ears) what(ears)
    else waiting = [...waiting, what]
  }
  void loading.then((loaded) => {
    ears = loaded
    loaded.onHeard(heardBy.tell)
    loaded.onMissed(missedBy.tell)
    loaded.onState(stateTo.tell)
    for (const what of waiting) what(loaded)
    waiting = []
    stateTo.tell(loaded.state())
  })

  return {
    start(language) {
      wanted = true
      tell((to) => to.start(language))
    },
    stop() {
      wanted = false
      tell((to) => to.stop())
    },
    tryAgain: () => tell((to) => to.tryAgain()),
    gate: () => tell((to) => to.gate()),
    open: () => tell((to) => to.open()),
    expect: (words) => tell((to) => to.expect(words)),
    attend: (phrases) => tell((to) => to.attend(phrases)),
    state: () => ears?.state() ?? { kind: wanted ? 'starting' : 'off' },
    which: () => ears?.which() ?? 'browser',
    onHeard: heardBy.add,
    onMissed: missedBy.add,
    onState: stateTo.add
  }
}
