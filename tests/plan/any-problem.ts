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
      tools: { pail: 1 },
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
      carries: size.tools ? fc.option(fc.tuple(fc.nat(size.tasks - 1), fc.nat(size.tasks - 1))) : fc.constant(null)
    })
    .map(({ tasks, ready, room, carries }) => {
      const blocksInOrder = tasks.map(({ block }) => block).sort((a, b) => a - b)
      const [from, to] = carries ? [Math.min(...carries), Math.max(...carries)] : [-1, -1]
      return {
        lane,
        tasks: tasks.map((task, index) => ({
          ...task,
          step: `${lane}${index}`,
          block: blocksInOrder[index] ?? 0,
          takes: index === from ? ['pail'] : [],
          frees: index === Math.min(to, tasks.length - 1) && from >= 0 && from < tasks.length ? ['pail'] : []
        })),
        readyMs: ready * SECOND,
        latestMs: room === null ? null : (ready + room) * SECOND,
        holds: []
      }
    })
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
