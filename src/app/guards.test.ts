import { expect, it, test } from 'vitest'
import { guardsOf, type Watched } from './guards.ts'

const WELL: Watched = {
  ears: { kind: 'listening' },
  mouth: { kind: 'ready' },
  alarm: { kind: 'ready' },
  screenLock: { kind: 'kept' },
  link: { kind: 'linked' },
  clock: null,
  voiceElsewhere: false,
  lockReach: 'all-tabs'
}

const faults = (change: Partial<Watched>) =>
  guardsOf({ ...WELL, ...change }).flatMap((guard) => (guard.health === 'dead' ? [guard.fault] : []))

it('is quiet while all is well, and while the ears are closed for the voice', () => {
  expect(guardsOf(WELL).map(({ health }) => health)).toEqual(['good', 'good', 'good', 'good', 'good'])
  expect(faults({ ears: { kind: 'gated' }, link: { kind: 'unknown' } })).toEqual([])
})

test.each([
  [{ ears: { kind: 'deaf', reason: 'denied' } }, 'ears-denied'],
  [{ ears: { kind: 'retrying', reason: 'not-answering', untilSteady: 10 } }, 'ears-not-answering'],
  [{ ears: { kind: 'off' } }, 'ears-off'],
  [{ mouth: { kind: 'mute', reason: 'no-voice' } }, 'voice-no-voice'],
  [{ alarm: { kind: 'silent', reason: 'needs-tap' } }, 'alarm-needs-tap'],
  [{ screenLock: { kind: 'off' } }, 'screen-off'],
  [{ screenLock: { kind: 'lost', reason: 'refused' } }, 'screen-refused'],
  [{ link: { kind: 'away', unsent: 3 } }, 'server-away'],
  [{ link: { kind: 'failing', unsent: 3, why: 'The disk is full.' } }, 'server-failing'],
  [{ clock: { movedMs: 60_000, unconfirmedMs: 60_000 } }, 'clock-unconfirmed'],
  [{ clock: { movedMs: -60_000, unconfirmedMs: 0 } }, 'clock-moved'],
  [{ lockReach: 'this-tab' }, 'tabs-unnoticed']
] as const)('%o looks dead', (change, fault) => {
  expect(faults(change)).toEqual([fault])
})

it('says how much, and what the server said', () => {
  expect(guardsOf({ ...WELL, link: { kind: 'away', unsent: 3 } })).toContainEqual({
    name: 'server',
    health: 'dead',
    fault: 'server-away',
    amount: 3,
    said: ''
  })
  expect(guardsOf({ ...WELL, link: { kind: 'failing', unsent: 2, why: 'The disk is full.' } })).toContainEqual({
    name: 'server',
    health: 'dead',
    fault: 'server-failing',
    amount: 2,
    said: 'The disk is full.'
  })
  expect(guardsOf({ ...WELL, link: { kind: 'rejecting', why: 'Too old.' } })).toContainEqual({
    name: 'server',
    health: 'dead',
    fault: 'server-rejecting',
    amount: 0,
    said: 'Too old.'
  })
})

it('shows ears and voice as dead here when another tab has them', () => {
  expect(faults({ voiceElsewhere: true })).toEqual(['ears-other-tab', 'voice-elsewhere'])
})
