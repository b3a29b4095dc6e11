/** A tool of which there is one goes from lane to lane: all stretches of work that hold it lie one after the other. */
import type { ChainTable } from './chain-table.ts'
import type { Segment, SegmentChain } from './segment.ts'

export interface ToolBound {
  /** No order is over earlier. `free`: when each chain can go on at the earliest. */
  of(positions: readonly number[], free: readonly number[]): number
}

/** What each position of a chain has left to do with a tool. */
interface Use {
  /** Time that the tool is still held, the waits in between included. */
  readonly held: readonly number[]
  /** Time of the chain until it takes the tool; 0 while it holds it. */
  readonly until: readonly number[]
  /** Time of the chain after it puts the tool back for the last time. */
  readonly after: readonly number[]
}

export function toolBound({ chains, tools, changeMs }: Segment, tables: readonly ChainTable[]): ToolBound {
  const uses = Object.entries(tools)
    .filter(([, count]) => count === 1)
    .map(([tool]) => chains.map((chain, index) => useOf(chain, tables[index] as ChainTable, tool)))
    .filter((use) => use.filter(({ held }) => (held[0] ?? 0) > 0).length > 1)
  const count = chains.length

  function of(positions: readonly number[], free: readonly number[]): number {
    let finish = 0
    for (const use of uses) {
      let held = 0
      let users = 0
      let begins = Number.POSITIVE_INFINITY
      let ends = Number.POSITIVE_INFINITY
      for (let chain = 0; chain < count; chain += 1) {
        const position = positions[chain] ?? 0
        const left = use[chain]?.held[position] ?? 0
        if (left === 0) continue
        held += left
        users += 1
        begins = Math.min(begins, (free[chain] ?? 0) + (use[chain]?.until[position] ?? 0))
        ends = Math.min(ends, use[chain]?.after[position] ?? 0)
      }
      if (users > 1) finish = Math.max(finish, begins + held + (users - 1) * changeMs + ends)
    }
    return finish
  }

  return { of }
}

function useOf({ tasks, holds }: SegmentChain, table: ChainTable, tool: string): Use {
  const length = tasks.length
  const isHeld: boolean[] = []
  let holding = holds.includes(tool)
  let last = -1
  tasks.forEach(({ takes, frees }, index) => {
    holding ||= takes.includes(tool)
    isHeld.push(holding)
    if (holding) last = index
    if (frees.includes(tool)) holding = false
  })
  const held = Array.from({ length: length + 1 }, () => 0)
  const until = Array.from({ length: length + 1 }, () => 0)
  const after = Array.from({ length: length + 1 }, () => 0)
  for (let index = length - 1; index >= 0; index -= 1) {
    const hands = table.hands[index] ?? 0
    const wait = table.min[index] ?? 0
    const goesOn = isHeld[index] && isHeld[index + 1] && !tasks[index]?.frees.includes(tool)
    held[index] = (held[index + 1] ?? 0) + (isHeld[index] ? hands + (goesOn ? wait : 0) : 0)
    until[index] = isHeld[index] ? 0 : hands + wait + (until[index + 1] ?? 0)
    // The wait of the step that puts it back goes on without it.
    after[index] = index > last ? 0 : (table.chainFrom[last] ?? 0) - (table.hands[last] ?? 0)
  }
  return { held, until, after }
}
