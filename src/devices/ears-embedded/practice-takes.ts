/** Practised takes on this device, by operator, language and phrase. Band powers only: no sound is kept. */
import { openDB, type IDBPDatabase } from 'idb'
import type { Takes } from '../../core/ears/phrasebook.ts'
import type { Utterance } from '../../core/ears/utterance.ts'
import type { Practiser } from '../../ports/voice-practice.ts'

export interface PracticeTakes {
  /** What the person practised. */
  of(who: Practiser): Promise<readonly Takes[]>
  /** @throws DOMException when the device cannot keep it. */
  keep(who: Practiser, words: string, takes: readonly Utterance[]): Promise<void>
  /** These instead of all that was practised. What was learned of the same phrases stays. */
  replace(who: Practiser, all: readonly Takes[]): Promise<void>
  /** One phrase, or all of this voice, with what was learned of it. */
  forget(who: Practiser, words: string | null): Promise<void>
  /** Takes of commands that counted, the newest last. */
  learned(who: Practiser): Promise<readonly Takes[]>
  keepLearned(who: Practiser, words: string, takes: readonly Utterance[]): Promise<void>
  forgetLearned(who: Practiser): Promise<void>
  /** Whether this voice is kept on the server too. Null: it is not. */
  sharing(who: Practiser): Promise<Sharing | null>
  share(who: Practiser, sharing: Sharing | null): Promise<void>
}

/** As it was practised last, or still to be sent there; `withdrawn`: still to be removed there. */
export type Sharing = 'sent' | 'unsent' | 'withdrawn'

const [PRACTISED, LEARNED, SHARING] = ['takes', 'learned', 'sharing'] as const

export function practiceTakes(databaseName: string): PracticeTakes {
  let opening: Promise<IDBPDatabase> | null = null
  /** Opened for each use and again after the system has closed it. */
  const database = () => {
    opening ??= openDB(databaseName, 2, {
      upgrade(fresh) {
        for (const store of [PRACTISED, LEARNED, SHARING])
          if (!fresh.objectStoreNames.contains(store)) fresh.createObjectStore(store)
      },
      blocking(_now, _next, event) {
        ;(event.target as IDBDatabase).close()
        opening = null
      },
      terminated() {
        opening = null
      }
    })
    return opening
  }
  const everyKeyOf = ({ operator, language }: Practiser) =>
    IDBKeyRange.bound([operator, language], [operator, language, []])

  async function takesIn(store: string, who: Practiser): Promise<readonly Takes[]> {
    const open = await database()
    const range = everyKeyOf(who)
    const [keys, values] = await Promise.all([open.getAllKeys(store, range), open.getAll(store, range)])
    return keys.map((key, at) => ({
      words: String((key as readonly string[])[2]),
      takes: values[at] as readonly Utterance[]
    }))
  }
  async function put(store: string, { operator, language }: Practiser, words: string, takes: readonly Utterance[]) {
    await (await database()).put(store, takes, [operator, language, words])
  }

  return {
    of: (who) => takesIn(PRACTISED, who),
    keep: (who, words, takes) => put(PRACTISED, who, words, takes),
    async replace(who, all) {
      const { operator, language } = who
      const kept = new Set(all.map(({ words }) => words))
      const writing = (await database()).transaction([PRACTISED, LEARNED], 'readwrite')
      const [practised, learned] = [writing.objectStore(PRACTISED), writing.objectStore(LEARNED)]
      const gone = (await learned.getAllKeys(everyKeyOf(who))).filter(
        (key) => !kept.has(String((key as readonly string[])[2]))
      )
      await Promise.all([
        practised.delete(everyKeyOf(who)),
        ...all.map(({ words, takes }) => practised.put(takes, [operator, language, words])),
        ...gone.map((key) => learned.delete(key)),
        writing.done
      ])
    },
    async forget(who, words) {
      const key = words === null ? everyKeyOf(who) : [who.operator, who.language, words]
      const open = await database()
      await Promise.all([open.delete(PRACTISED, key), open.delete(LEARNED, key)])
    },
    learned: (who) => takesIn(LEARNED, who),
    keepLearned: (who, words, takes) => put(LEARNED, who, words, takes),
    async forgetLearned(who) {
      await (await database()).delete(LEARNED, everyKeyOf(who))
    },
    async sharing({ operator, language }) {
      return ((await (await database()).get(SHARING, [operator, language])) as Sharing | undefined) ?? null
    },
    async share({ operator, language }, sharing) {
      const open = await database()
      if (sharing === null) await open.delete(SHARING, [operator, language])
      else await open.put(SHARING, sharing, [operator, language])
    }
  }
}
