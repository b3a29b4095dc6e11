import type { PracticeNotice, PracticeRoom } from '../../app/practice-room.ts'

export type FaultyTake = Extract<PracticeNotice, { kind: 'fault' }>['fault']
export type DeafPractice = Extract<PracticeNotice, { kind: 'deaf' }>['why']
export type SharedNotice = NonNullable<ReturnType<PracticeRoom['$shared']['get']>>
