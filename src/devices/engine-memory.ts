/** Remembers on this device that its recogniser has nothing behind it. Blocked site data means nothing is remembered. */
type Store = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>

export interface EngineMemory {
  recallAbsent(): boolean
  rememberAbsent(absent: boolean): void
}

/** `store` is asked for at each use: where site data is blocked, reaching for it throws. */
export function rememberedIn(store: () => Store, key: string): EngineMemory {
  return {
    recallAbsent() {
      try {
        return store().getItem(key) !== null
      } catch {
        return false
      }
    },
    rememberAbsent(absent) {
      try {
        if (absent) store().setItem(key, 'yes')
        else store().removeItem(key)
      } catch {
        // Then the ears find out again after the next reload.
      }
    }
  }
}
