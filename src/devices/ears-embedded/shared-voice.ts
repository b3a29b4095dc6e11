/** Keeps a voice on this device and on the server alike, where the person agreed to it. */
import type { Practiser, Shared } from '../../ports/voice-practice.ts'
import type { VoiceShelf } from '../../ports/voice-shelf.ts'
import type { PracticeTakes } from './practice-takes.ts'

export interface SharedVoice {
  /** Sends what waits to be sent, else takes what another device practised. */
  settle(who: Practiser): Promise<void>
  /** This device has something new. */
  changed(who: Practiser): Promise<void>
  share(who: Practiser, wanted: boolean): Promise<Shared>
}

export function sharedVoice(store: PracticeTakes, shelf: VoiceShelf): SharedVoice {
  async function send(who: Practiser): Promise<Shared> {
    const sent = await shelf.put(who, await store.of(who))
    if (sent === 'refused') return 'refused'
    await store.share(who, sent === 'kept' ? 'sent' : 'unsent')
    return sent === 'kept' ? 'shared' : 'away'
  }

  async function take(who: Practiser): Promise<void> {
    const takes = await shelf.get(who)
    if (takes === 'away') return
    const isShared = (await store.sharing(who)) !== null
    // Whoever deleted it there wants it gone here as well. What was never there stays.
    if (takes === null && !isShared) return
    await store.forget(who, null)
    for (const one of takes ?? []) await store.keep(who, one.words, one.takes)
    await store.share(who, takes === null ? null : 'sent')
  }

  return {
    async settle(who) {
      const sharing = await store.sharing(who)
      if (sharing === 'unsent') await send(who)
      // What was practised on this device alone is not replaced.
      else if (sharing === 'sent' || (await store.of(who)).length === 0) await take(who)
    },
    async changed(who) {
      if ((await store.sharing(who)) === null) return
      await store.share(who, 'unsent')
      await send(who)
    },
    async share(who, wanted) {
      if (wanted) return send(who)
      if ((await shelf.remove(who)) === 'away') return 'away'
      await store.share(who, null)
      return 'not-shared'
    }
  }
}
