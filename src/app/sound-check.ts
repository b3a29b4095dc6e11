/** Before a shift: plays a sentence, listens, and says what it heard, so that a dead loudspeaker or microphone is found in time. */
import { atom, type ReadableAtom } from 'nanostores'
import type { DeafReason } from '../ports/ears.ts'
import type { MuteReason } from '../ports/mouth.ts'
import type { Ports } from './ports.ts'
import type { App } from './what-app-does.ts'

export type SoundCheckState =
  | { readonly kind: 'not-begun' }
  | { readonly kind: 'speaking' }
  | { readonly kind: 'listening' }
  | { readonly kind: 'heard'; readonly words: string }
  | { readonly kind: 'nothing-heard' }
  | { readonly kind: 'mute'; readonly reason: MuteReason }
  | { readonly kind: 'deaf'; readonly reason: DeafReason }

export interface SoundCheck {
  readonly $state: ReadableAtom<SoundCheckState>
  /** Call inside a tap: it unlocks sound. A second call begins anew. */
  begin(): void
  end(): void
}

const TAIL_MS = 500
const LISTEN_MS = 8000

/** Only outside a run: a run has the ears and the mouth to itself. */
export function soundCheck(
  { ears, mouth, alarm, clock }: Pick<Ports, 'ears' | 'mouth' | 'alarm' | 'clock'>,
  { $talk, speakable }: Pick<App, '$talk' | 'speakable'>
): SoundCheck {
  const language = () => $talk.get().language
  const $state = atom<SoundCheckState>({ kind: 'not-begun' })
  let turn = 0
  let busy = false
  let forget = () => {}

  /** Leaves ears and mouth alone when nothing is being tried: they may belong to a run by then. */
  function end(): void {
    if (!busy) return
    busy = false
    turn += 1
    forget()
    forget = () => {}
    mouth.stop()
    ears.stop()
  }

  async function check(mine: number): Promise<void> {
    $state.set({ kind: 'speaking' })
    ears.start(language())
    ears.gate()
    const spoken = await mouth.say(speakable($talk.get().soundCheck.ask), language())
    if (mine !== turn) return
    if (spoken.kind === 'failed') {
      end()
      return $state.set({ kind: 'mute', reason: spoken.reason })
    }
    // Rooms ring on.
    forget = clock.after(TAIL_MS, () => listen(mine))
  }

  function listen(mine: number): void {
    ears.open()
    $state.set({ kind: 'listening' })
    const finish = (state: SoundCheckState, said: string) => {
      if (mine !== turn) return
      end()
      $state.set(state)
      void mouth.say(speakable(said), language())
    }
    const forgetHeard = ears.onHeard(({ alternatives }) => {
      const heard = alternatives[0]?.words ?? ''
      finish({ kind: 'heard', words: heard }, $talk.get().soundCheck.heard(heard))
    })
    const forgetTime = clock.after(LISTEN_MS, () => {
      const state = ears.state()
      finish(
        state.kind === 'deaf' ? { kind: 'deaf', reason: state.reason } : { kind: 'nothing-heard' },
        $talk.get().soundCheck.nothing
      )
    })
    forget = () => {
      forgetHeard()
      forgetTime()
    }
  }

  return {
    $state,
    begin() {
      end()
      alarm.unlock()
      mouth.unlock()
      busy = true
      void check(turn)
    },
    end
  }
}
