/** A device's durable log that can lose its power at any durable step, before or after the step was kept. */
import type { EventLog } from '../../src/ports/event-log.ts'

export type CrashPoint = 'before' | 'after'

/** Steps that change what is stored. */
const DURABLE = [
  'append',
  'receive',
  'sent',
  'sendAgain',
  'rejected',
  'keepMark',
  'keepSetting',
  'keepProcedure',
  'setAside'
] as const

/** `crashes` is asked at every durable step; whoever waits for a step that crashed waits for ever, as on a dead tablet. */
export function crashingLog(
  log: EventLog,
  crashes: (step: string) => CrashPoint | null,
  onCrash: () => void
): EventLog {
  const wrapped = Object.fromEntries(
    DURABLE.map((step) => {
      const work = log[step] as (...given: readonly unknown[]) => Promise<unknown>
      return [
        step,
        async (...given: readonly unknown[]) => {
          const point = crashes(step)
          if (point === null) return work(...given)
          if (point === 'after') await work(...given)
          onCrash()
          return new Promise(() => {})
        }
      ]
    })
  )
  return { ...log, ...wrapped }
}
