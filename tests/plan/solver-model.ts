/**
 * The problem as a mixed integer program for HiGHS (Huangfu and Hall 2018), a solver that shares nothing with ours: a
 * start for every task, and for every two tasks a choice of which the hands do first.
 */
import type { LegacyHighs } from 'highs'
import type { Statement, StatedTask } from './problem-statement.ts'

/** The least finish in ms, or null when no order keeps all maxima relaxed by `relaxMs`. */
export function solvedByHighs(highs: LegacyHighs, statement: Statement, relaxMs = 0): number | null {
  const { tasks, tails, changeMs, at, holdings, runsUntil } = statement
  const name = (id: string) => `s_${id.replace('.', '_')}`
  const seconds = (ms: number) => ms / 1000
  const big = seconds(
    runsUntil +
      tasks.reduce((sum, { hands, earliest }) => sum + hands + changeMs + earliest, 0) +
      tails.reduce((sum, { ms }) => sum + ms, 0) +
      1000
  )
  const find = (id: string) => tasks.find((task) => task.id === id) as StatedTask
  const rows: string[] = []
  const binaries: string[] = []
  const row = (text: string) => rows.push(` c${rows.length}: ${text}`)
  for (const task of tasks) {
    const start = name(task.id)
    const arrives = at !== null && at !== task.lane ? changeMs : 0
    row(`${start} >= ${seconds(Math.max(task.earliest, arrives))}`)
    if (task.latest !== null) row(`${start} <= ${seconds(task.latest + relaxMs)}`)
    for (const { id, ms } of task.after) row(`${start} - ${name(id)} >= ${seconds(ms + find(id).hands)}`)
    for (const { id, ms } of task.within) row(`${start} - ${name(id)} <= ${seconds(ms + relaxMs + find(id).hands)}`)
  }
  tasks.forEach((a, index) => {
    for (const b of tasks.slice(index + 1)) {
      const first = `y_${a.id.replace('.', '_')}_${b.id.replace('.', '_')}`
      binaries.push(first)
      const move = a.lane === b.lane ? 0 : changeMs
      // first = 1: a before b. One of the two rows is switched off by a large number.
      row(`${name(b.id)} - ${name(a.id)} - ${big} ${first} >= ${seconds(a.hands + move) - big}`)
      row(`${name(a.id)} - ${name(b.id)} + ${big} ${first} >= ${seconds(b.hands + move)}`)
    }
  })
  holdings.forEach((a, index) => {
    for (const b of holdings.slice(index + 1)) {
      if (a.tool !== b.tool) continue
      const choice = `h_${index}_${holdings.indexOf(b)}`
      binaries.push(choice)
      // One gives it back before the other takes it; one who keeps it is never first.
      if (a.to === null) row(`${choice} = 0`)
      else row(`${name(b.from)} - ${name(a.to)} - ${big} ${choice} >= ${seconds(find(a.to).hands) - big}`)
      if (b.to === null) row(`${choice} = 1`)
      else row(`${name(a.from)} - ${name(b.to)} + ${big} ${choice} >= ${seconds(find(b.to).hands)}`)
    }
  })
  for (const { id, ms } of tails) row(`finish - ${name(id)} >= ${seconds(find(id).hands + ms)}`)
  row(`finish >= ${seconds(runsUntil)}`)
  const program = [
    'Minimize',
    ' obj: finish',
    'Subject To',
    ...rows,
    'Binary',
    ...binaries.map((binary) => ` ${binary}`),
    'End'
  ].join('\n')
  const solution = highs.solve(program, { mip_rel_gap: 0, mip_abs_gap: 1e-7 })
  if (solution.Status === 'Infeasible') return null
  if (solution.Status !== 'Optimal') throw new Error(`HiGHS says ${solution.Status}`)
  return Math.round(solution.ObjectiveValue * 1000)
}
