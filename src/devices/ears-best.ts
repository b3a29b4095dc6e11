/**
 * The browser's ears where they work, our own where they turn out not to: found by trying, because what a browser says
 * of itself is not to be relied on.
 */
import type { DeafReason, EarsState, Heard, PlainEars } from '../ports/ears.ts'
import { listeners } from './listeners.ts'
import { toldState } from './told-state.ts'

/**
 * What may be the engine's fault alone. A recogniser with nothing behind it also says that there is no microphone
 * (headless Chromium 156 does); ours then finds out whether there is.
 */
const ENGINE_MISSING: readonly DeafReason[] = [
  'unsupported',
  'no-engine',
  'not-answering',
  'language-missing',
  'no-microphone'
]

export interface BestEarsParts {
  readonly browser: PlainEars
  readonly own: PlainEars
  /** Loads our own ears; false when they cannot be had now. */
  readonly ownReady: () => Promise<boolean>
  /** The browser says that this page may use the microphone. */
  readonly microphoneAllowed: () => boolean
}

export function bestEars({ browser, own, ownReady, microphoneAllowed }: BestEarsParts): PlainEars {
  const heardBy = listeners<Heard>()
  const missedBy = listeners<readonly string[]>()
  let active = browser
  let wanted: string | null = null
  let loading = false
  let hasUnderstood = false

  const describe = (): EarsState => (loading && wanted !== null ? { kind: 'starting' } : active.state())
  const state = toldState<EarsState>(describe())
  const settle = () => state.set(describe())

  const missing = () => {
    const now = browser.state()
    if (now.kind !== 'deaf' && now.kind !== 'retrying') return false
    // Ears that have understood something are not to blame for a microphone that was pulled out.
    if (now.reason === 'no-microphone' && hasUnderstood) return false
    // Some recognisers are forbidden while the microphone is not: dictation switched off, or no service in this build.
    return now.reason === 'denied' ? microphoneAllowed() : ENGINE_MISSING.includes(now.reason)
  }
  async function changeOver(): Promise<void> {
    if (loading || active === own || wanted === null) return
    loading = true
    settle()
    const isReady = await ownReady()
    loading = false
    if (isReady && missing()) {
      browser.stop()
      active = own
      if (wanted !== null) own.start(wanted)
    }
    settle()
  }

  for (const ears of [browser, own]) {
    ears.onHeard((heard) => {
      if (ears === browser) hasUnderstood = true
      if (ears === active) heardBy.tell(heard)
    })
    ears.onMissed((closest) => {
      if (ears === active) missedBy.tell(closest)
    })
    ears.onState(() => {
      settle()
      if (ears === browser && missing()) void changeOver()
    })
  }

  return {
    start(language) {
      wanted = language
      active.start(language)
      if (active === browser && missing()) void changeOver()
      settle()
    },
    stop() {
      wanted = null
      active.stop()
      settle()
    },
    tryAgain() {
      active.tryAgain()
      if (active === browser && missing()) void changeOver()
    },
    gate() {
      browser.gate()
      own.gate()
    },
    open() {
      browser.open()
      own.open()
    },
    expect(words, speaker) {
      browser.expect(words, speaker)
      own.expect(words, speaker)
    },
    state: state.now,
    which: () => active.which(),
    onHeard: heardBy.add,
    onMissed: missedBy.add,
    onState: state.onChange
  }
}
