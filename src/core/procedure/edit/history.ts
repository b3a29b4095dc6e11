/** What was written, step by step. Texts, so that going back gives the very text that was there. */
export interface History {
  readonly past: readonly string[]
  readonly present: string
  readonly future: readonly string[]
}

const MOST = 200

export function begun(text: string): History {
  return { past: [], present: text, future: [] }
}

/** The very same history where nothing was changed: who only looks loses no step forward. */
export function written(history: History, text: string): History {
  const { past, present } = history
  if (text === present) return history
  return { past: [...past, present].slice(-MOST), present: text, future: [] }
}

export function undone(history: History): History {
  const { past, present, future } = history
  const before = past.at(-1)
  return before === undefined ? history : { past: past.slice(0, -1), present: before, future: [present, ...future] }
}

export function redone(history: History): History {
  const { past, present, future } = history
  const [after, ...rest] = future
  return after === undefined ? history : { past: [...past, present], present: after, future: rest }
}
