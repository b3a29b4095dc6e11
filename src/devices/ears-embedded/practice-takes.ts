/** Practised takes on this device, by operator, language and phrase. Band powers only: no sound is kept. */
import { openDB, type IDBPDatabase } from 'idb'
import type { Takes } from '../../core/ears/phrasebook.ts'
import type { Utterance } from '../../core/ears/utterance.ts'
import type { Practiser, Sharing } from '../../ports/voice-practice.ts'

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
  sharing(who: Practiser): Promise<ToServer>
  share(who: Practiser, toServer: ToServer): Promise<void>
  /** Whose voices are still to be removed from the server. */
  toBeWithdrawn(): Promise<readonly Practiser[]>
}

/** `known`: the newest revision of this voice there that this device has heard of; 0 for none. */
export interface ToServer {
  readonly sharing: Sharing
  readonly known: number
}

/** As it was kept before revisions. */
const OF_BEFORE: Readonly<Record<string, Sharing>> = {
  sent: 'shared',
  unsent: 'to-be-shared',
  withdrawn: 'to-be-withdrawn'
}

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
      return toServer(await (await database()).get(SHARING, [operator, language]))
    },
    async share({ operator, language }, changed) {
      await (await database()).put(SHARING, changed, [operator, language])
    },
    async toBeWithdrawn() {
      const open = await database()
      const [keys, values] = await Promise.all([open.getAllKeys(SHARING), open.getAll(SHARING)])
      return keys.flatMap((key, at) => {
        const [operator = '', language = ''] = key as readonly string[]
        return toServer(values[at]).sharing === 'to-be-withdrawn' ? [{ operator, language }] : []
      })
    }
  }
}

function toServer(kept: ToServer | string | undefined): ToServer {
  if (typeof kept === 'object') return kept
  return { sharing: OF_BEFORE[kept ?? ''] ?? 'not-shared', known: 0 }
}
