/** Short names for what is added, made from its words: authors in the page never have to think of one. */
const LONGEST = 40

/** `kind` stands in where the words leave nothing that an id can be made of. */
export function newId(words: string, kind: string, taken: readonly string[]): string {
  const plain = words
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^[^a-z]+|-+$/g, '')
    .slice(0, LONGEST)
    .replace(/-+$/, '')
  const base = plain === '' ? kind : plain
  const used = new Set(taken)
  for (let count = 1; ; count += 1) {
    const id = count === 1 ? base : `${base}-${count}`
    if (!used.has(id)) return id
  }
}
