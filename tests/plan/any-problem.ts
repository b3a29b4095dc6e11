/** Random planning problems in whole seconds, small enough for solvers that try everything. */
import fc from 'fast-check'
import type { Chain, Problem, Task } from '../../src/core/plan/problem.ts'

export interface ProblemSize {
  readonly lanes: number
  readonly tasks: number
  readonly machineTasks: number
  readonly tools: boolean
  readonly maxima: boolean
  /** In the middle of a run: waits that run already, limits that may be missed already. */
  readonly midway: boolean
}

const SECOND = 1000
const LANES = ['a', 'b', 'c', 'd']

export function anyProblem(size: ProblemSize): fc.Arbitrary<Problem> {
  const lanes = LANES.slice(0, size.lanes)
  return fc
    .record({
      chains: fc.tuple(...lanes.map((lane) => anyChain(lane, size))),
      machine: fc.array(anyTask('machine', size, fc.constant(0)), {
        minLength: size.machineTasks,
        maxLength: size.machineTasks
      }),
      change: fc.integer({ min: 0, max: 8 }),
      at: fc.constantFrom(...lanes, 'machine')
    })
    .map(({ chains, machine, change, at }): Problem => ({
      chains,
      machine: {
        lane: 'machine',
        tasks: machine.map((task, index) => ({
          ...task,
          step: `machine${index}`,
          block: index,
          takes: [],
          frees: [],
          maxMs: null
        })),
        readyMs: 0,
        latestMs: null,
        holds: []
      },
      tools: { pail: 1, brush: 1 },
      changeMs: change * SECOND,
      hands: [at]
    }))
}

function anyChain(lane: string, size: ProblemSize): fc.Arbitrary<Chain> {
  const blocks = fc.integer({ min: 0, max: size.machineTasks })
  return fc
    .record({
      tasks: fc.array(anyTask(lane, size, blocks), { minLength: 1, maxLength: size.tasks }),
      ready: size.midway ? fc.integer({ min: 0, max: 60 }) : fc.constant(0),
      room: size.midway && size.maxima ? fc.option(fc.integer({ min: -30, max: 60 })) : fc.constant(null),
      pail: anySpan(size),
      brush: anySpan(size)
    })
    .map(({ tasks, ready, room, pail, brush }) => {
      const blocksInOrder = tasks.map(({ block }) => block).sort((a, b) => a - b)
      const spans = [['pail', pail] as const, ['brush', brush] as const]
      const begun = spans.filter(([, span]) => span !== null && span[0] < tasks.length)
      const takenAt = (index: number) => begun.filter(([, span]) => span?.[0] === index)
      const freedAt = (index: number) =>
        begun.filter(([, span]) => Math.min(span?.[1] ?? 0, tasks.length - 1) === index)
      return {
        lane,
        tasks: tasks.map((task, index) => ({
          ...task,
          step: `${lane}${index}`,
          block: blocksInOrder[index] ?? 0,
          takes: takenAt(index).map(([tool]) => tool),
          frees: freedAt(index).map(([tool]) => tool)
        })),
        readyMs: ready * SECOND,
        latestMs: room === null ? null : (ready + room) * SECOND,
        holds: []
      }
    })
}

/** The first and the last task that a tool is held for. */
function anySpan(size: ProblemSize): fc.Arbitrary<readonly [number, number] | null> {
  if (!size.tools) return fc.constant(null)
  const place = fc.nat(size.tasks - 1)
  return fc.option(fc.tuple(place, place).map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const))
}

function anyTask(lane: string, size: ProblemSize, block: fc.Arbitrary<number>): fc.Arbitrary<Task> {
  return fc
    .record({
      hands: fc.integer({ min: 0, max: 30 }),
      wait: fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 90 })),
      room: size.maxima ? fc.option(fc.integer({ min: 0, max: 60 }), { freq: 2 }) : fc.constant(null),
      block
    })
    .map(({ hands, wait, room, block: at }) => ({
      step: lane,
      round: 1,
      handsMs: hands * SECOND,
      minMs: wait * SECOND,
      maxMs: room === null ? null : (wait + room) * SECOND,
      takes: [],
      frees: [],
      block: at
    }))
}
