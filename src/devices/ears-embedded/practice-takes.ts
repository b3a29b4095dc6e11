/** Practised takes on this device, by operator, language and phrase. Band powers only: no sound is kept. */
import { openDB, type IDBPDatabase } from 'idb'
import type { Takes } from '../../core/ears/phrasebook.ts'
import type { Utterance } from '../../core/ears/utterance.ts'
import type { Practiser } from '../../ports/voice-practice.ts'

export interface PracticeTakes {
  of(who: Practiser): Promise<readonly Takes[]>
  /** @throws DOMException when the device cannot keep it. */
  keep(who: Practiser, words: string, takes: readonly Utterance[]): Promise<void>
  forget(who: Practiser, words: string | null): Promise<void>
}

const STORE = 'takes'

export function practiceTakes(databaseName: string): PracticeTakes {
  let opening: Promise<IDBPDatabase> | null = null
  /** Opened for each use and again after the system has closed it. */
  const database = () => {
    opening ??= openDB(databaseName, 1, {
      upgrade: (fresh) => void fresh.createObjectStore(STORE),
      terminated() {
        opening = null
      }
    })
    return opening
  }
  const everyKeyOf = ({ operator, language }: Practiser) =>
    IDBKeyRange.bound([operator, language], [operator, language, []])

  return {
    async of(who) {
      const open = await database()
      const range = everyKeyOf(who)
      const [keys, values] = await Promise.all([open.getAllKeys(STORE, range), open.getAll(STORE, range)])
      return keys.map((key, at) => ({
        words: String((key as readonly string[])[2]),
        takes: values[at] as readonly Utterance[]
      }))
    },
    async keep({ operator, language }, words, takes) {
      await (await database()).put(STORE, takes, [operator, language, words])
    },
    async forget(who, words) {
      const key = words === null ? everyKeyOf(who) : [who.operator, who.language, words]
      await (await database()).delete(STORE, key)
    }
  }
}
