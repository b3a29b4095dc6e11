/** Keeps a voice on this device and on the server alike, where the person agreed to it. */
import type { Practiser, Sharing } from '../../ports/voice-practice.ts'
import type { VoiceShelf } from '../../ports/voice-shelf.ts'
import type { PracticeTakes } from './practice-takes.ts'

export interface SharedVoice {
  /** Sends or withdraws what waits for it, else takes what another device practised. */
  settle(who: Practiser): Promise<void>
  /** This device has something new. */
  changed(who: Practiser): Promise<void>
  share(who: Practiser, wanted: boolean): Promise<Sharing | 'refused'>
  now(who: Practiser): Promise<Sharing>
}

const AS_TOLD = { sent: 'shared', unsent: 'to-be-shared', withdrawn: 'to-be-withdrawn', none: 'not-shared' } as const

export function sharedVoice(store: PracticeTakes, shelf: VoiceShelf): SharedVoice {
  /** One after the other: what was sent before it was withdrawn must not arrive after it. */
  let working: Promise<unknown> = Promise.resolve()
  function inTurn<T>(work: () => Promise<T>): Promise<T> {
    const done = working.then(work, work)
    working = done.catch(() => {})
    return done
  }

  async function send(who: Practiser): Promise<'refused' | null> {
    const sent = await shelf.put(who, await store.of(who))
    // It may have been withdrawn meanwhile.
    if (sent === 'kept' && (await store.sharing(who)) === 'unsent') await store.share(who, 'sent')
    return sent === 'refused' ? 'refused' : null
  }

  async function withdraw(who: Practiser): Promise<void> {
    const removed = await shelf.remove(who)
    if (removed === 'removed' && (await store.sharing(who)) === 'withdrawn') await store.share(who, null)
  }

  async function take(who: Practiser): Promise<void> {
    const takes = await shelf.get(who)
    if (takes === 'away') return
    const sharing = await store.sharing(who)
    // Withdrawn meanwhile. And what was never there stays; else whoever deleted it there wants it gone here as well.
    if (sharing === 'withdrawn' || (takes === null && sharing === null)) return
    if (takes === null) await store.forget(who, null)
    else await store.replace(who, takes)
    await store.share(who, takes === null ? null : 'sent')
  }

  async function settle(who: Practiser): Promise<void> {
    switch (await store.sharing(who)) {
      case 'unsent':
        await send(who)
        break
      case 'withdrawn':
        await withdraw(who)
        break
      case 'sent':
        await take(who)
        break
      case null:
        // What was practised on this device alone is not replaced.
        if ((await store.of(who)).length === 0) await take(who)
    }
  }

  return {
    settle: (who) => inTurn(() => settle(who)),
    async changed(who) {
      const sharing = await store.sharing(who)
      if (sharing === null || sharing === 'withdrawn') return
      await store.share(who, 'unsent')
      await inTurn(() => settle(who))
    },
    async share(who, wanted) {
      const before = await store.sharing(who)
      // Kept before anything is asked: what a person decided holds when the page is closed, or the server is away.
      await store.share(who, wanted ? 'unsent' : 'withdrawn')
      if (!wanted) await inTurn(() => withdraw(who))
      else if ((await inTurn(() => send(who))) === 'refused') {
        if ((await store.sharing(who)) === 'unsent') await store.share(who, before)
        return 'refused'
      }
      return AS_TOLD[(await store.sharing(who)) ?? 'none']
    },
    now: async (who) => AS_TOLD[(await store.sharing(who)) ?? 'none']
  }
}
