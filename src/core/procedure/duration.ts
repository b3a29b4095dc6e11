/** Durations as authors write them: `20 s`, `5 min`, `1 h 30 min`, `1.5 min`. */
export const DURATION_PATTERN = /^(?=\d)(?:(\d+(?:\.\d+)?) ?h)?(?: ?(\d+(?:\.\d+)?) ?min)?(?: ?(\d+(?:\.\d+)?) ?s)?$/

/** Seconds, or null when the text is not a duration. */
export function parseDuration(text: string): number | null {
  const match = DURATION_PATTERN.exec(text)
  if (!match) return null
  const [hours, minutes, seconds] = [match[1], match[2], match[3]].map((part) => Number(part ?? 0))
  return (hours ?? 0) * 3600 + (minutes ?? 0) * 60 + (seconds ?? 0)
}
