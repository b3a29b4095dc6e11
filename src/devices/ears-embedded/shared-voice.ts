/** Keeps a voice on this device and on the server alike, where the person agreed to it. */
import type { Practiser, Sharing } from '../../ports/voice-practice.ts'
import type { VoiceShelf } from '../../ports/voice-shelf.ts'
import type { PracticeTakes, ToServer } from './practice-takes.ts'

export interface SharedVoice {
  /** Sends or withdraws what waits for it, else takes what another device practised. */
  settle(who: Practiser): Promise<void>
  /** This device has something new. */
  changed(who: Practiser): Promise<void>
  share(who: Practiser, wanted: boolean): Promise<Sharing | 'refused'>
  /** Where it is shared: by the next `settle`. */
  withdrawLater(who: Practiser): Promise<void>
  now(who: Practiser): Promise<Sharing>
}

export function sharedVoice(store: PracticeTakes, shelf: VoiceShelf): SharedVoice {
  /** One after the other: what was sent before it was withdrawn must not arrive after it. */
  let working: Promise<unknown> = Promise.resolve()
  function inTurn<T>(work: () => Promise<T>): Promise<T> {
    const done = working.then(work, work)
    working = done.catch(() => {})
    return done
  }

  /** What came of asking counts only where the person has decided nothing else meanwhile. */
  async function isStill(who: Practiser, before: ToServer): Promise<boolean> {
    const { sharing, known } = await store.sharing(who)
    return sharing === before.sharing && known === before.known
  }
  async function becomes(who: Practiser, before: ToServer, now: ToServer): Promise<void> {
    if (await isStill(who, before)) await store.share(who, now)
  }

  async function send(who: Practiser, before: ToServer): Promise<'refused' | null> {
    const sent = await shelf.put(who, await store.of(who), before.known)
    if (typeof sent === 'object') await becomes(who, before, { sharing: 'shared', known: sent.revision })
    return sent === 'refused' ? 'refused' : null
  }

  async function withdraw(who: Practiser, before: ToServer): Promise<void> {
    const removed = await shelf.remove(who, before.known)
    if (removed !== 'away') await becomes(who, before, { sharing: 'not-shared', known: removed.revision })
  }

  async function take(who: Practiser, before: ToServer): Promise<void> {
    const isShared = before.sharing === 'shared'
    const there = await shelf.get(who, before.known)
    if (there === 'away') return
    switch (there.kind) {
      case 'same':
        return
      case 'voice':
        // What was practised on this device alone is not replaced.
        if (!isShared && (await store.of(who)).length > 0) return
        if (!(await isStill(who, before))) return
        await store.replace(who, there.takes)
        return becomes(who, before, { sharing: 'shared', known: there.revision })
      case 'forgotten':
        // Whoever withdrew it on this device keeps it here.
        if (!isShared || !(await isStill(who, before))) return
        await store.forget(who, null)
        return becomes(who, before, { ...before, sharing: 'not-shared' })
      case 'none-as-new':
        await tellAgain(who, before)
    }
  }

  /** The server was set back to an older backup: it has lost a voice, or found again one that was forgotten. */
  async function tellAgain(who: Practiser, before: ToServer): Promise<void> {
    if (before.sharing === 'not-shared') return before.known > 0 ? withdraw(who, before) : undefined
    if (await isStill(who, before)) await sendAll(who)
  }

  /** What is practised while it is under way goes in a turn of its own. */
  async function sendAll(who: Practiser): Promise<void> {
    const before = await store.sharing(who)
    if (before.sharing !== 'shared' && before.sharing !== 'to-be-shared') return
    const unsent: ToServer = { ...before, sharing: 'to-be-shared' }
    await store.share(who, unsent)
    await send(who, unsent)
  }

  async function settleOne(who: Practiser): Promise<void> {
    const before = await store.sharing(who)
    switch (before.sharing) {
      case 'to-be-shared':
        await send(who, before)
        return
      case 'to-be-withdrawn':
        return withdraw(who, before)
      case 'shared':
        return take(who, before)
      case 'not-shared':
        // Nobody knows of what was only ever practised here.
        if (before.known > 0 || (await store.of(who)).length === 0) await take(who, before)
    }
  }

  async function settle(who: Practiser): Promise<void> {
    await settleOne(who)
    // Whoever withdrew it may never use this device again.
    for (const other of await store.toBeWithdrawn()) await withdraw(other, await store.sharing(other))
  }

  return {
    settle: (who) => inTurn(() => settle(who)),
    async changed(who) {
      const before = await store.sharing(who)
      if (before.sharing === 'shared') await store.share(who, { ...before, sharing: 'to-be-shared' })
      await inTurn(() => sendAll(who))
    },
    async share(who, wanted) {
      const before = await store.sharing(who)
      // Kept before anything is asked: what a person decided holds when the page is closed, or the server is away.
      const decided: ToServer = { ...before, sharing: wanted ? 'to-be-shared' : 'to-be-withdrawn' }
      await store.share(who, decided)
      if (!wanted) await inTurn(() => withdraw(who, decided))
      else if ((await inTurn(() => send(who, decided))) === 'refused') {
        await becomes(who, decided, before)
        return 'refused'
      }
      return (await store.sharing(who)).sharing
    },
    async withdrawLater(who) {
      const before = await store.sharing(who)
      if (before.sharing !== 'not-shared') await store.share(who, { ...before, sharing: 'to-be-withdrawn' })
    },
    now: async (who) => (await store.sharing(who)).sharing
  }
}
