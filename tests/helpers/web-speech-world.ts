import { webSpeechEars } from '../../src/devices/ears-web-speech.ts'
import type { MicrophonePermission } from '../../src/devices/microphone-permission.ts'
import type { PageMoment } from '../../src/devices/page-visibility.ts'
import type { ListeningManner } from '../../src/devices/recogniser.ts'
import { listeners } from '../../src/devices/listeners.ts'
import { toldState } from '../../src/devices/told-state.ts'
import type { EarsState, Heard } from '../../src/ports/ears.ts'
import { fakeClock } from './fake-clock.ts'
import { fakeBrowserLocks } from './fake-locks.ts'
import { fakeRecognisers } from './fake-recogniser.ts'

export interface WorldOptions {
  readonly manner?: ListeningManner
  readonly noRecogniser?: boolean
  readonly permission?: MicrophonePermission
  readonly engineAbsent?: boolean
  readonly chance?: () => number
}

/** The Web Speech ears in a page whose every part is in the hands of the test. */
export function webSpeechWorld(options: WorldOptions = {}) {
  const clock = fakeClock()
  const browserLocks = fakeBrowserLocks()
  const permission = toldState<MicrophonePermission>(options.permission ?? 'granted')
  const moments = listeners<PageMoment>()
  const wakes = listeners<'online' | 'devicechange'>()
  const told: EarsState[] = []
  const heard: Heard[] = []
  let visible = true
  let online = true
  let absent = options.engineAbsent ?? false
  let gated = false

  const recognisers = fakeRecognisers(clock, () => {
    if (gated) throw new Error('Started while gated.')
    if (!visible) throw new Error('Started while the page is hidden.')
    if (ears.state().kind === 'deaf') throw new Error(`Started while ${JSON.stringify(ears.state())}.`)
    if (ears.state().kind === 'off') throw new Error('Started while off.')
  })
  const ears = webSpeechEars({
    name: 'browser',
    makeRecogniser: options.noRecogniser ? null : recognisers.make,
    manner: options.manner ?? 'keeps-listening',
    clock,
    chance: options.chance ?? (() => 0),
    visibility: { visible: () => visible, onMoment: moments.add },
    permission: { now: permission.now, onChange: permission.onChange },
    locks: browserLocks.tab(),
    online: () => online,
    onWake: (tell) => void wakes.add(tell),
    engineMemory: { recallAbsent: () => absent, rememberAbsent: (value) => (absent = value) }
  })
  ears.onState((state) => told.push(state))
  ears.onHeard((it) => heard.push(it))

  return {
    clock,
    ears,
    recognisers,
    browserLocks,
    permission,
    told,
    heard,
    words: () => heard.map((it) => it.alternatives[0]?.words),
    kind: () => ears.state().kind,
    gate() {
      gated = true
      ears.gate()
    },
    open() {
      gated = false
      ears.open()
    },
    show(now: boolean) {
      if (visible === now) return
      visible = now
      moments.tell(now ? 'visible' : 'hidden')
    },
    network(now: boolean) {
      online = now
      if (now) wakes.tell('online')
    },
    deviceChange: () => wakes.tell('devicechange'),
    /** Waits until the retry that is promised, and no longer. */
    untilRetry() {
      const state = ears.state()
      if (state.kind !== 'retrying') throw new Error(`The ears promise no retry; they are ${state.kind}.`)
      clock.advance(state.untilSteady - clock.steady())
      return recognisers.last()
    },
    engineAbsent: () => absent,
    /** Starts, and answers as a healthy engine does. */
    listen(language = 'en') {
      ears.start(language)
      recognisers.last().fire('start')
      return recognisers.last()
    }
  }
}
