/** Turns what the author wrote into the form the program uses: defaults filled in, one shape for each thing. */
import type { AuthoredProcedure, AuthoredStep, AuthoredText } from './author-format.ts'
import { parseDuration } from './duration.ts'
import { SUBJECT_WORDS } from '../sanitizer/subject-words.ts'
import type { Subject } from '../sanitizer/rule-set.ts'
import type { Check, Chemistry, Place, Procedure, ReadingUnit, Step, Text } from './procedure.ts'

const UNITS: Readonly<Record<'ppm' | 'C' | 'F' | 'pH', ReadingUnit>> = {
  ppm: '[ppm]',
  C: 'Cel',
  F: '[degF]',
  pH: '[pH]'
}

export function fromAuthored(authored: AuthoredProcedure): Procedure {
  const language = authored.languages[0] ?? 'en'
  const text = (written: AuthoredText): Text => (typeof written === 'string' ? { [language]: written } : written)
  const sides = authored.sides.map((side) => ({ id: side.id, name: text(side.name) }))
  return {
    id: authored.procedure,
    title: text(authored.title),
    summary: text(authored.summary),
    ...(authored.example ? { example: true as const } : {}),
    languages: authored.languages,
    machine: text(authored.machine),
    ...(authored['about the machine'] === undefined ? {} : { aboutMachine: text(authored['about the machine']) }),
    sides,
    tools: (authored.tools ?? []).map((tool) => ({ id: tool.id, name: text(tool.name), count: tool.count ?? 1 })),
    parts: (authored.parts ?? []).map(({ 'replace after': after, ...part }) => ({
      ...part,
      name: text(part.name),
      ...(after ? { wear: { days: after.days ?? null, runs: after.runs ?? null } } : {})
    })),
    supplies: (authored.supplies ?? []).map((supply) => ({
      ...supply,
      name: text(supply.name),
      amount: text(supply.amount)
    })),
    solutions: (authored.solutions ?? []).map((solution) => ({
      ...solution,
      name: text(solution.name),
      amount: text(solution.amount),
      directions: text(solution.directions)
    })),
    stages: authored.stages.map((stage) => ({
      title: text(stage.stage),
      steps: stage.steps.map((step) =>
        stepFromAuthored(
          step,
          text,
          sides.map((side) => side.id)
        )
      )
    }))
  }
}

function stepFromAuthored(step: AuthoredStep, text: (written: AuthoredText) => Text, sides: readonly string[]): Step {
  const optional = (written: AuthoredText | undefined) => (written === undefined ? null : text(written))
  return {
    id: step.step,
    on: placeOf(step.on, sides),
    say: text(step.say),
    more: optional(step.more),
    why: optional(step.why),
    handsSeconds: seconds(step.hands),
    cautions: (step.cautions ?? []).map((caution) => ({
      signal: caution.signal,
      hazard: text(caution.hazard),
      consequence: text(caution.consequence),
      avoid: text(caution.avoid)
    })),
    confirm: optional(step.confirm),
    wait: step.wait
      ? {
          kind: step.wait.for,
          minSeconds: seconds(step.wait['at least']),
          maxSeconds: step.wait['at most'] === undefined ? null : seconds(step.wait['at most']),
          source: text(step.wait.source),
          late: step.wait.late ? { say: text(step.wait.late.say), redo: step.wait.late.redo } : null,
          ...ofSubject(step.wait.of)
        }
      : null,
    check: checkOf(step, text),
    repeat: step.again
      ? { from: step.again.from, atLeast: step.again['at least'] ?? 1, atMost: step.again['at most'] }
      : null,
    takes: step.take ?? [],
    frees: step.free ?? [],
    ...chemistryOf(step)
  }
}

function placeOf(on: AuthoredStep['on'], sides: readonly string[]): Place {
  if (on === undefined || on === 'each side') return { kind: 'sides', sides: [...new Set(sides)] }
  if (on === 'bench') return { kind: 'bench' }
  if (on === 'whole machine') return { kind: 'machine' }
  return { kind: 'sides', sides: typeof on === 'string' ? [on] : on }
}

function checkOf(step: AuthoredStep, text: (written: AuthoredText) => Text): Check | null {
  const { ask, read, count } = step
  if (ask) {
    return {
      kind: 'yes-no',
      ask: text(ask.question),
      good: ask.expect ?? 'yes',
      corrections: (ask['if not'] ?? []).map(text)
    }
  }
  if (read) {
    return {
      kind: 'reading',
      ask: text(read.question),
      reading: read.reading,
      unit: UNITS[read.unit],
      min: read['at least'] ?? null,
      max: read['at most'] ?? null,
      source: text(read.source),
      corrections: read['if not'].map(text),
      ...ofSubject(read.of)
    }
  }
  if (count) {
    return {
      kind: 'count',
      ask: text(count.question),
      parts: count.parts,
      corrections: count['if not'].map(text),
      ...(count.going === undefined ? {} : { going: count.going })
    }
  }
  return null
}

/** Absent where it was not written: a version must keep its hash when this program learns a key. */
function ofSubject(of: keyof typeof SUBJECT_WORDS | undefined): { of?: Subject } {
  return of === undefined ? {} : { of: SUBJECT_WORDS[of] }
}

/** A step with both is refused when it is checked. */
function chemistryOf({ use, rinse }: AuthoredStep): { chemistry?: Chemistry } {
  if (use) return { chemistry: { kind: 'use', solutions: use } }
  return rinse ? { chemistry: { kind: 'full-rinse' } } : {}
}

/** The shape check has already refused texts that are no durations. */
function seconds(duration: string): number {
  const parsed = parseDuration(duration)
  if (parsed === null) throw new Error(`not a duration: ${duration}`)
  return parsed
}
