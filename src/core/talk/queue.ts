/** What is to be said, the most urgent first, and what must give way. */
import { PRIORITIES, type Line, type Priority } from './line.ts'

export interface Queue {
  readonly saying: Line | null
  /** In the order they will be said. */
  readonly waiting: readonly Line[]
}

export const SILENT: Queue = { saying: null, waiting: [] }

/** `stop`: what is being said must end now. Its end is told by `ended`. */
export interface Changed {
  readonly queue: Queue
  readonly stop: boolean
}

const rank = ({ priority }: Line) => PRIORITIES.indexOf(priority)

/** Lines of one urgency keep their order; a more urgent one cuts what is being said. */
export function withLines({ saying, waiting }: Queue, lines: readonly Line[]): Changed {
  const all = [...waiting, ...lines].map((line, index) => ({ line, index }))
  all.sort((a, b) => rank(a.line) - rank(b.line) || a.index - b.index)
  const [first] = all
  return {
    queue: { saying, waiting: all.map(({ line }) => line) },
    stop: saying !== null && first !== undefined && rank(first.line) < rank(saying)
  }
}

/** Forgets everything as urgent as `upTo` or less. */
export function hushed({ saying, waiting }: Queue, upTo: Priority): Changed {
  const limit = PRIORITIES.indexOf(upTo)
  return {
    queue: { saying, waiting: waiting.filter((line) => rank(line) < limit) },
    stop: saying !== null && rank(saying) >= limit
  }
}

/** Takes the next line to say; the same queue when something is being said, or nothing is left. */
export function next(queue: Queue): Queue {
  const [first, ...rest] = queue.waiting
  return queue.saying !== null || first === undefined ? queue : { saying: first, waiting: rest }
}

/** What was being said is over, said or cut. */
export function ended({ waiting }: Queue): Queue {
  return { saying: null, waiting }
}
