/** A language model of three words that knows some sentences and nothing else, in the ARPA form that recognisers read. */

const DISCOUNT = 0.5
const LEAST = -99

export function closedModel(sentences: readonly (readonly string[])[]): string {
  const counts = [1, 2, 3].map((order) => countsOf(sentences, order)) as [Counts, Counts, Counts]
  const [one, two, three] = counts
  const total = sum([...one.entries()].filter(([gram]) => gram !== '<s>').map(([, count]) => count))
  const p1 = (word: string) => (one.get(word) ?? 0) / total
  const after = (counts: Counts) => {
    const seen = new Map<string, { total: number; kinds: number }>()
    for (const [gram, count] of counts) {
      const before = gram.slice(0, gram.lastIndexOf(' '))
      const now = seen.get(before) ?? { total: 0, kinds: 0 }
      seen.set(before, { total: now.total + count, kinds: now.kinds + 1 })
    }
    return seen
  }
  const [afterOne, afterTwo] = [after(two), after(three)]
  const p2 = (gram: string) => ((two.get(gram) ?? 0) - DISCOUNT) / (afterOne.get(front(gram))?.total ?? 1)
  const p3 = (gram: string) => ((three.get(gram) ?? 0) - DISCOUNT) / (afterTwo.get(front(gram))?.total ?? 1)
  const leftOver = (seen: Seen | undefined, known: number) =>
    seen === undefined
      ? 0
      : Math.log10(Math.max(1e-9, (DISCOUNT * seen.kinds) / seen.total / Math.max(1e-9, 1 - known)))
  const covered = (counts: Counts, lower: (gram: string) => number) => {
    const sums = new Map<string, number>()
    for (const gram of counts.keys()) sums.set(front(gram), (sums.get(front(gram)) ?? 0) + lower(back(gram)))
    return sums
  }
  const [coveredOne, coveredTwo] = [covered(two, p1), covered(three, p2)]
  const log = (probability: number) => Math.log10(Math.max(1e-12, probability)).toFixed(4)
  return [
    String.raw`\data\ `.trim(),
    ...counts.map((grams, index) => `ngram ${index + 1}=${grams.size}`),
    '',
    String.raw`\1-grams:`,
    ...[...one.keys()].map(
      (word) =>
        `${word === '<s>' ? LEAST : log(p1(word))} ${word} ${leftOver(afterOne.get(word), coveredOne.get(word) ?? 0).toFixed(4)}`
    ),
    '',
    String.raw`\2-grams:`,
    ...[...two.keys()].map(
      (gram) => `${log(p2(gram))} ${gram} ${leftOver(afterTwo.get(gram), coveredTwo.get(gram) ?? 0).toFixed(4)}`
    ),
    '',
    String.raw`\3-grams:`,
    ...[...three.keys()].map((gram) => `${log(p3(gram))} ${gram}`),
    '',
    String.raw`\end\ `.trim(),
    ''
  ].join('\n')
}

type Counts = Map<string, number>
interface Seen {
  readonly total: number
  readonly kinds: number
}

function countsOf(sentences: readonly (readonly string[])[], order: number): Counts {
  const counts: Counts = new Map()
  for (const words of sentences) {
    const whole = ['<s>', ...words, '</s>']
    for (let at = 0; at + order <= whole.length; at += 1) {
      const gram = whole.slice(at, at + order).join(' ')
      counts.set(gram, (counts.get(gram) ?? 0) + 1)
    }
  }
  return counts
}

const front = (gram: string) => gram.slice(0, gram.lastIndexOf(' '))
const back = (gram: string) => gram.slice(gram.indexOf(' ') + 1)
const sum = (values: readonly number[]) => values.reduce((all, value) => all + value, 0)
