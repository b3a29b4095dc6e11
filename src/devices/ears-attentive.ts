/** Ears for loud places: what is said counts only for some seconds after the attention word. */
import { afterAttention } from '../core/talk/attention.ts'
import type { Clock } from '../ports/clock.ts'
import type { Ears, EarsState, Heard, PlainEars } from '../ports/ears.ts'
import { listeners } from './listeners.ts'
import { toldState } from './told-state.ts'

/** With the ears open: what the app says in between does not count, so that a question can be answered. */
const OPEN_MS = 8000

export function attentiveEars(ears: PlainEars, clock: Clock): Ears {
  const heardBy = listeners<Heard>()
  const missedBy = listeners<readonly string[]>()
  let phrases: readonly string[] | null = null
  let wanted: readonly string[] | null = null
  let open = false
  let cancelEnd = () => {}

  const describe = (): EarsState => {
    const inner = ears.state()
    return inner.kind === 'listening' && phrases !== null && !open ? { kind: 'waiting-for-word' } : inner
  }
  const state = toldState<EarsState>(describe())

  function settle(): void {
    const [word] = phrases ?? []
    if (word === undefined) ears.expect(wanted)
    else if (open) ears.expect(wanted && [...wanted, word], 'caller')
    else ears.expect([word], 'whoever-calls')
    state.set(describe())
  }
  function begin(): void {
    open = true
    goOn()
    settle()
  }
  /** The seconds run only while somebody can be heard. */
  function goOn(): void {
    cancelEnd()
    if (ears.state().kind !== 'listening') return
    cancelEnd = clock.after(OPEN_MS, () => {
      open = false
      settle()
    })
  }

  ears.onState(() => {
    if (open) goOn()
    state.set(describe())
  })
  ears.onHeard((heard) => {
    if (phrases === null) return heardBy.tell(heard)
    const word = phrases
    const called = heard.alternatives.flatMap((one) => {
      const rest = afterAttention(one.words, word)
      return rest === null ? [] : [{ ...one, words: rest }]
    })
    if (called.length > 0) {
      begin()
      const alternatives = called.filter(({ words }) => words !== '')
      if (alternatives.length > 0) heardBy.tell({ ...heard, alternatives })
    } else if (open) {
      goOn()
      heardBy.tell(heard)
    }
  })
  ears.onMissed((closest) => {
    if (phrases === null || open) missedBy.tell(closest)
  })

  return {
    start(language) {
      ears.start(language)
      // Whoever touches the ears wants to be heard.
      if (phrases !== null) begin()
    },
    stop() {
      open = false
      cancelEnd()
      ears.stop()
      settle()
    },
    tryAgain: () => ears.tryAgain(),
    gate: () => ears.gate(),
    open: () => ears.open(),
    expect(words) {
      // Told again and again, because what may be said can change with time alone.
      if (String(words) === String(wanted)) return
      wanted = words
      settle()
    },
    attend(now) {
      phrases = now
      open = false
      cancelEnd()
      settle()
    },
    which: ears.which,
    state: state.now,
    onHeard: heardBy.add,
    onMissed: missedBy.add,
    onState: state.onChange
  }
}
