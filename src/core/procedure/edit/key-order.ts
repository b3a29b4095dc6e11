/** The order in which keys are written, so that a key that is added stands where its reader looks for it. */
const ORDER = [
  ['procedure', 'title', 'summary', 'example', 'languages', 'machine', 'about the machine', 'sides', 'tools', 'parts'],
  ['supplies', 'solutions', 'stages', 'stage', 'steps'],
  ['step', 'on', 'say', 'more', 'why', 'hands', 'take', 'free', 'use', 'rinse', 'confirm', 'cautions'],
  ['wait', 'ask', 'read', 'count', 'again', 'id', 'name', 'amount', 'per', 'care', 'chemical', 'directions'],
  ['signal', 'hazard', 'consequence', 'avoid', 'for', 'of', 'from', 'question', 'reading', 'unit'],
  ['going', 'expect', 'at least', 'at most', 'source', 'late', 'if not', 'redo', 'replace after', 'days', 'runs']
].flat()

const RANK = new Map(ORDER.map((key, rank) => [key, rank]))

/** Where among `keys` a new one belongs: behind the last that comes before it. */
export function placeForKey(keys: readonly string[], added: string): number {
  const rank = RANK.get(added) ?? ORDER.length
  return keys.findLastIndex((key) => (RANK.get(key) ?? ORDER.length) <= rank) + 1
}
