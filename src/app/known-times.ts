/** What is known of how long steps take: from the server's records, or as this device heard it last. */
import type { LearnedTimes, StatedTime } from '../core/plan/times/learned-times.ts'
import type { TimeSample } from '../core/plan/times/time-sample.ts'
import type { Course } from '../core/procedure/course.ts'
import { readTimesAnswer } from '../core/record/wire-answers.ts'
import type { Ports } from './ports.ts'

export interface KnownTimes {
  readonly learned: LearnedTimes
  /** From so many runs; 0: what the author stated is all there is. */
  readonly runs: number
}

/** Null when nothing could be worked out. */
export async function learnTimes(
  { planner, server, log }: Pick<Ports, 'planner' | 'server' | 'log'>,
  course: Course,
  who: Pick<TimeSample, 'machine' | 'operator'>
): Promise<KnownTimes | null> {
  const samples = await samplesOf(server, log, course.procedure.id)
  const learned = await planner.learn(samples, statedTimes(course), who)
  return learned && { learned, runs: new Set(samples.map(({ run }) => run)).size }
}

function statedTimes(course: Course): readonly StatedTime[] {
  const steps = new Map(course.lanes.flatMap((lane) => lane.steps.map(({ step }) => [step.id, step.handsSeconds])))
  return [...steps].map(([id, handsSeconds]) => ({ id, handsSeconds }))
}

async function samplesOf(
  server: Ports['server'],
  log: Ports['log'],
  procedureId: string
): Promise<readonly TimeSample[]> {
  const key = `times ${procedureId}`
  const answered = await server.times(procedureId)
  if (answered.kind === 'answered') {
    await log.keepSetting(key, JSON.stringify({ samples: answered.value }))
    return answered.value
  }
  const kept = await log.setting(key)
  return kept.kind === 'kept' && kept.value !== null ? samplesIn(kept.value) : []
}

/** Kept for convenience: anything unreadable is as good as nothing. */
function samplesIn(text: string): readonly TimeSample[] {
  try {
    return readTimesAnswer(JSON.parse(text))?.samples ?? []
  } catch {
    return []
  }
}
