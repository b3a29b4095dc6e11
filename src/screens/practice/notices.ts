import type { PracticeNotice, PracticeRoom } from '../../app/practice-room.ts'

export type FaultyTake = Extract<PracticeNotice, { kind: 'fault' }>['fault']
export type DeafPractice = Extract<PracticeNotice, { kind: 'deaf' }>['why']
export type SharingNotice = NonNullable<ReturnType<PracticeRoom['$sharing']['get']>>
