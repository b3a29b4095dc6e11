/** People who asked to be told. One that throws is reported and does not keep the news from the others. */
export interface Listeners<T> {
  add(tell: (news: T) => void): () => void
  tell(news: T): void
}

export function listeners<T>(): Listeners<T> {
  const all = new Set<{ readonly tell: (news: T) => void }>()
  return {
    add(tell) {
      // The same function may ask twice; each asking has its own end.
      const one = { tell }
      all.add(one)
      return () => void all.delete(one)
    },
    tell(news) {
      for (const one of [...all]) {
        if (!all.has(one)) continue
        try {
          one.tell(news)
        } catch (fault) {
          queueMicrotask(() => {
            throw fault
          })
        }
      }
    }
  }
}
