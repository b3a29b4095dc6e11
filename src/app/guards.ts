/** What watches over a run, and whether each of it is alive: a dead microphone must not look like a live one. */
import type { AlarmState } from '../ports/alarm.ts'
import type { EarsState } from '../ports/ears.ts'
import type { Locks } from '../ports/locks.ts'
import type { MouthState } from '../ports/mouth.ts'
import type { ScreenLockState } from '../ports/screen-lock.ts'
import type { LinkState } from './outbox.ts'
import type { ClockNotice } from './time-keeper.ts'

type Reason<State, Kind> = Extract<State, { kind: Kind }> extends { reason: infer R } ? R & string : never

export type GuardFault =
  | `ears-${Reason<EarsState, 'deaf'>}`
  | 'ears-off'
  | `voice-${Reason<MouthState, 'mute'>}`
  | 'voice-elsewhere'
  | `alarm-${Reason<AlarmState, 'silent'>}`
  | `screen-${Reason<ScreenLockState, 'lost'>}`
  | 'screen-off'
  | 'server-away'
  | 'server-failing'
  | 'server-rejecting'
  | 'clock-unconfirmed'
  | 'clock-moved'
  | 'tabs-unnoticed'

export type GuardName = 'ears' | 'voice' | 'alarm' | 'screen' | 'server' | 'clock' | 'tabs'

export type Guard =
  | { readonly name: GuardName; readonly health: 'good' }
  /** At rest on purpose, for a moment. */
  | { readonly name: GuardName; readonly health: 'resting' }
  /** Alive, and waiting for the attention word. */
  | { readonly name: 'ears'; readonly health: 'waiting' }
  | {
      readonly name: GuardName
      readonly health: 'dead'
      readonly fault: GuardFault
      /** How much: events not sent yet, milliseconds moved; 0 where nothing is counted. */
      readonly amount: number
      /** What the server said, where it said something. */
      readonly said: string
    }

export interface Watched {
  readonly ears: EarsState
  readonly mouth: MouthState
  readonly alarm: AlarmState
  readonly screenLock: ScreenLockState
  readonly link: LinkState
  readonly clock: ClockNotice | null
  readonly voiceElsewhere: boolean
  readonly lockReach: Locks['reach']
}

export function guardsOf(watched: Watched): readonly Guard[] {
  const { ears, mouth, alarm, screenLock, link, clock } = watched
  const elsewhere = watched.voiceElsewhere
  return [
    elsewhere ? dead('ears', 'ears-other-tab') : earsGuard(ears),
    elsewhere
      ? dead('voice', 'voice-elsewhere')
      : mouth.kind === 'ready'
        ? good('voice')
        : dead('voice', `voice-${mouth.reason}`),
    alarm.kind === 'ready' ? good('alarm') : dead('alarm', `alarm-${alarm.reason}`),
    screenLock.kind === 'kept'
      ? good('screen')
      : dead('screen', screenLock.kind === 'off' ? 'screen-off' : `screen-${screenLock.reason}`),
    serverGuard(link),
    ...(clock ? [clockGuard(clock)] : []),
    ...(watched.lockReach === 'this-tab' ? [dead('tabs', 'tabs-unnoticed')] : [])
  ]
}

function earsGuard(ears: EarsState): Guard {
  switch (ears.kind) {
    case 'listening':
      return good('ears')
    case 'waiting-for-word':
      return { name: 'ears', health: 'waiting' }
    case 'starting':
    case 'gated':
      return { name: 'ears', health: 'resting' }
    case 'off':
      return dead('ears', 'ears-off')
    case 'retrying':
    case 'deaf':
      return dead('ears', `ears-${ears.reason}`)
  }
}

function serverGuard(link: LinkState): Guard {
  switch (link.kind) {
    case 'linked':
      return good('server')
    case 'unknown':
      return { name: 'server', health: 'resting' }
    case 'away':
      return dead('server', 'server-away', link.unsent)
    case 'failing':
      return dead('server', 'server-failing', link.unsent, link.why)
    case 'rejecting':
      return dead('server', 'server-rejecting', 0, link.why)
  }
}

function clockGuard({ movedMs, unconfirmedMs }: ClockNotice): Guard {
  return unconfirmedMs > 0 ? dead('clock', 'clock-unconfirmed', unconfirmedMs) : dead('clock', 'clock-moved', movedMs)
}

function good(name: GuardName): Guard {
  return { name, health: 'good' }
}

function dead(name: GuardName, fault: GuardFault, amount = 0, said = ''): Guard {
  return { name, health: 'dead', fault, amount, said }
}
