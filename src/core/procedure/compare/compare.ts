/** What is different between two versions of a procedure, for people: by step, in the order of the newer one. */
import type { Procedure, Stage, Step, Text } from '../procedure.ts'
import { compareStages, inNewOrder, sameStages, type SameStages, type StageDifference } from './compare-stages.ts'
import { describeStep, type Fact, type FactKind, type FactName } from './describe-step.ts'
import { inOrder } from './in-order.ts'
import { same } from './same.ts'

export interface ChangedFact {
  readonly kind: FactKind
  readonly name: FactName
  readonly number: number
  /** Null where the other version alone has it. */
  readonly before: Fact['value'] | null
  readonly after: Fact['value'] | null
}

export type StepDifference =
  | { readonly kind: 'added' | 'removed'; readonly step: Step; readonly stage: Text }
  | {
      readonly kind: 'changed'
      readonly step: Step
      readonly stage: Text
      readonly facts: readonly ChangedFact[]
      /** Where it stands now: behind which step of its new order; null for the first. Absent where it was not moved. */
      readonly movedBehind?: Step | null
      /** The stage it stood in. Absent where it still stands there. */
      readonly stageBefore?: Text
    }

export const HEAD_TEXTS = ['title', 'summary', 'machine', 'aboutMachine'] as const
export const THINGS = ['sides', 'tools', 'parts', 'supplies', 'solutions'] as const

export interface HeadDifference {
  readonly name: (typeof HEAD_TEXTS)[number]
  readonly before: Text | null
  readonly after: Text | null
}

/** A part, a tool or the like, that came, went or changed. */
export interface ThingDifference {
  readonly list: (typeof THINGS)[number]
  readonly kind: 'added' | 'removed' | 'changed'
  readonly name: Text
  /** The keys that changed, with their values before and after. */
  readonly keys: readonly { readonly key: string; readonly before: unknown; readonly after: unknown }[]
}

export interface Differences {
  readonly head: readonly HeadDifference[]
  readonly languages: { readonly before: readonly string[]; readonly after: readonly string[] } | null
  /** Whether it is an example now; null where that did not change. */
  readonly example: boolean | null
  readonly things: readonly ThingDifference[]
  readonly stages: readonly StageDifference[]
  readonly steps: readonly StepDifference[]
}

export function compare(before: Procedure, after: Procedure): Differences {
  const pairs = sameStages(before.stages, after.stages)
  return {
    head: HEAD_TEXTS.flatMap((name) => {
      const [was, is] = [before[name] ?? null, after[name] ?? null]
      return same(was, is) ? [] : [{ name, before: was, after: is }]
    }),
    languages: same(before.languages, after.languages) ? null : { before: before.languages, after: after.languages },
    example: before.example === after.example ? null : after.example === true,
    things: THINGS.flatMap((list) => thingsIn(list, before[list], after[list])),
    stages: compareStages(before.stages, after.stages, pairs),
    steps: stepsIn(before.stages, after.stages, pairs)
  }
}

export function isSame({ head, languages, example, things, stages, steps }: Differences): boolean {
  return head.length + things.length + stages.length + steps.length === 0 && languages === null && example === null
}

type Thing = { readonly id: string; readonly name: Text }

function thingsIn(
  list: ThingDifference['list'],
  before: readonly Thing[],
  after: readonly Thing[]
): readonly ThingDifference[] {
  const was = new Map(before.map((thing) => [thing.id, thing]))
  const is = new Set(after.map(({ id }) => id))
  return [
    ...after.flatMap((thing): readonly ThingDifference[] => {
      const old = was.get(thing.id)
      if (!old) return [{ list, kind: 'added', name: thing.name, keys: [] }]
      const keys = keysThatDiffer(old, thing)
      return keys.length === 0 ? [] : [{ list, kind: 'changed', name: thing.name, keys }]
    }),
    ...before
      .filter(({ id }) => !is.has(id))
      .map(({ name }): ThingDifference => ({ list, kind: 'removed', name, keys: [] }))
  ]
}

function keysThatDiffer(before: object, after: object): ThingDifference['keys'] {
  const [was, is] = [before as Readonly<Record<string, unknown>>, after as Readonly<Record<string, unknown>>]
  return [...new Set([...Object.keys(was), ...Object.keys(is)])]
    .filter((key) => !same(was[key], is[key]))
    .map((key) => ({ key, before: was[key], after: is[key] }))
}

interface InStage {
  readonly step: Step
  readonly stage: Text
  /** Place of the stage in its own version. */
  readonly at: number
}

function listed(stages: readonly Stage[], all: readonly Stage[]): readonly InStage[] {
  return stages.flatMap((one) => one.steps.map((step) => ({ step, stage: one.title, at: all.indexOf(one) })))
}

function stepsIn(before: readonly Stage[], after: readonly Stage[], pairs: SameStages): readonly StepDifference[] {
  // Where a whole stage was moved, that is told once, and not by each of its steps.
  const [was, is] = [listed(inNewOrder(before, pairs), before), listed(after, after)]
  const old = new Map(was.map((one) => [one.step.id, one]))
  const stay = new Set(is.map(({ step }) => step.id))
  const inPlace = inOrder(
    was.map(({ step }) => step.id),
    is.map(({ step }) => step.id)
  )
  return [
    ...is.flatMap(({ step, stage, at }, index): readonly StepDifference[] => {
      const earlier = old.get(step.id)
      if (!earlier) return [{ kind: 'added', step, stage }]
      const facts = factsThatDiffer(earlier.step, step)
      const moved = {
        ...(inPlace.has(step.id) ? {} : { movedBehind: is[index - 1]?.step ?? null }),
        ...(pairs.get(at) === earlier.at ? {} : { stageBefore: earlier.stage })
      }
      if (facts.length === 0 && Object.keys(moved).length === 0) return []
      return [{ kind: 'changed', step, stage, facts, ...moved }]
    }),
    ...was
      .filter(({ step }) => !stay.has(step.id))
      .map(({ step, stage }): StepDifference => ({ kind: 'removed', step, stage }))
  ]
}

function factsThatDiffer(before: Step, after: Step): readonly ChangedFact[] {
  const key = ({ name, number }: Fact) => `${name} ${number}`
  const was = new Map(describeStep(before).map((fact) => [key(fact), fact]))
  const is = new Map(describeStep(after).map((fact) => [key(fact), fact]))
  return [...new Set([...is.keys(), ...was.keys()])].flatMap((each): readonly ChangedFact[] => {
    const [old, fresh] = [was.get(each), is.get(each)]
    const either = fresh ?? old
    if (!either || same(old?.value, fresh?.value)) return []
    const { kind, name, number } = either
    return [{ kind, name, number, before: old?.value ?? null, after: fresh?.value ?? null }]
  })
}
