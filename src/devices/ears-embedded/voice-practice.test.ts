import 'fake-indexeddb/auto'
import { beforeEach, describe, expect, test } from 'vitest'
import { counting } from '../../../tests/helpers/stamping.ts'
import type { Takes } from '../../core/ears/phrasebook.ts'
import type { Utterance } from '../../core/ears/utterance.ts'
import type { RunEvent } from '../../core/run/event.ts'
import type { Practiser, Sharing } from '../../ports/voice-practice.ts'
import type { VoiceShelf } from '../../ports/voice-shelf.ts'
import type { Engine, StreamNews } from './engine.ts'
import { practiceTakes } from './practice-takes.ts'
import { voicePractice } from './voice-practice.ts'

const ANA: Practiser = { operator: 'Ana', language: 'en' }
const take = (value: number): Utterance => ({ speech: Float32Array.of(value, 2), room: Float32Array.of(0.5) })
const keyOf = ({ operator, language }: Practiser) => `${operator} ${language}`

/** What devices of a shop share, as the server keeps it. */
function aShelf() {
  let kept = new Map<string, { readonly takes: readonly Takes[] | null; readonly revision: number }>()
  let away = false
  let puts = 0
  let arriving = Promise.resolve()
  const change = (who: Practiser, takes: readonly Takes[] | null, known: number) => {
    const revision = Math.max(known, kept.get(keyOf(who))?.revision ?? 0) + 1
    kept.set(keyOf(who), { takes, revision })
    return revision
  }
  const shelf: VoiceShelf = {
    async get(who, known) {
      if (away) return 'away'
      const { takes, revision } = kept.get(keyOf(who)) ?? { takes: null, revision: 0 }
      if (revision === 0 || revision < known) return { kind: 'none-as-new' }
      if (takes === null) return { kind: 'forgotten' }
      return revision === known ? { kind: 'same' } : { kind: 'voice', takes, revision }
    },
    async put(who, takes, known) {
      puts += 1
      await arriving
      return away ? 'away' : { kind: 'kept', revision: change(who, takes, known) }
    },
    remove: async (who, known) => (away ? 'away' : { kind: 'removed', revision: change(who, null, known) })
  }
  return {
    shelf,
    /** Of Ana. */
    words: () => kept.get(keyOf(ANA))?.takes?.map(({ words }) => words) ?? null,
    takes: () => kept.get(keyOf(ANA))?.takes,
    goAway: (gone: boolean) => (away = gone),
    puts: () => puts,
    /** What is sent from now on arrives when the returned function is called. */
    slow() {
      let arrive = () => {}
      arriving = new Promise((resolve) => (arrive = resolve))
      return arrive
    },
    /** The returned function sets the server back to now. */
    backUp() {
      const copy = new Map(kept)
      return () => (kept = new Map(copy))
    }
  }
}

let devices = 0
function aDevice(shelf: VoiceShelf) {
  let told: readonly Takes[] = []
  let news: StreamNews | null = null
  let certain: ReturnType<Engine['lastCertain']> = null
  const sharings: Sharing[] = []
  const engine: Engine = {
    prepare: async () => true,
    isPrepared: () => true,
    practised: (takes) => (told = takes),
    listenFor: () => {},
    lastCertain: () => certain,
    stream(_words, to) {
      news = to
      return () => {
        news = null
      }
    }
  }
  const practice = voicePractice(engine, practiceTakes(`device ${(devices += 1)}`), shelf)
  return {
    practice,
    sharings,
    told: () => told.map(({ words, takes }) => [words, takes.map(({ speech }) => speech[0])]),
    hears: (words: string, value: number) => (certain = { words, utterance: take(value) }),
    async practises(words: string, ...values: readonly number[]) {
      for (const value of values) {
        await new Promise<void>((kept) => {
          const stop = practice.practise(ANA, words, (told) => {
            if (told.kind === 'sharing') sharings.push(told.sharing)
            if (told.kind !== 'take') return
            stop()
            kept()
          })
          news?.told({ kind: 'take', take: { utterance: take(value), fault: null }, soundsLike: null })
        })
      }
    }
  }
}

let shop: ReturnType<typeof aShelf>
beforeEach(() => {
  shop = aShelf()
})

describe('on the server', () => {
  test('there is nothing before the person agrees', async () => {
    const device = aDevice(shop.shelf)
    await device.practice.use(ANA)
    await device.practises('all done', 1, 2, 3)
    expect(shop.words()).toBeNull()
    expect(await device.practice.sharing(ANA)).toBe('not-shared')
  })

  test('another device knows the voice, and what is practised anew on either', async () => {
    const [one, other] = [aDevice(shop.shelf), aDevice(shop.shelf)]
    await one.practice.use(ANA)
    await one.practises('all done', 1, 2, 3)
    expect(await one.practice.share(ANA, true)).toBe('shared')
    await other.practice.use(ANA)
    expect(other.told()).toEqual([['all done', [1, 2, 3]]])
    await other.practises('say again', 4, 5, 6)
    await expect.poll(shop.puts).toBe(2)
    await one.practice.use(ANA)
    expect(one.told()).toEqual([
      ['all done', [1, 2, 3]],
      ['say again', [4, 5, 6]]
    ])
  })

  test('forgotten on one device, it is gone everywhere', async () => {
    const [one, other] = [aDevice(shop.shelf), aDevice(shop.shelf)]
    await one.practises('all done', 1, 2, 3)
    await one.practice.share(ANA, true)
    await other.practice.use(ANA)
    await one.practice.forget(ANA, null)
    expect(shop.words()).toBeNull()
    await other.practice.use(ANA)
    expect(other.told()).toEqual([])
    expect(await other.practice.sharing(ANA)).toBe('not-shared')
  })

  test('withdrawn, it stays on this device alone', async () => {
    const device = aDevice(shop.shelf)
    await device.practises('all done', 1, 2, 3)
    await device.practice.share(ANA, true)
    expect(await device.practice.share(ANA, false)).toBe('not-shared')
    expect(shop.words()).toBeNull()
    await device.practice.use(ANA)
    expect(device.told()).toEqual([['all done', [1, 2, 3]]])
  })

  test('with the server away it is sent later, and nothing here is lost', async () => {
    const device = aDevice(shop.shelf)
    await device.practises('all done', 1, 2, 3)
    await device.practice.share(ANA, true)
    shop.goAway(true)
    await device.practises('say again', 4, 5, 6)
    await expect.poll(shop.puts).toBe(2)
    await device.practice.use(ANA)
    expect(device.told().map(([words]) => words)).toEqual(['all done', 'say again'])
    shop.goAway(false)
    await device.practice.use(ANA)
    expect(shop.words()).toEqual(['all done', 'say again'])
  })

  test('agreed to with the server away, it is sent later', async () => {
    const device = aDevice(shop.shelf)
    await device.practises('all done', 1, 2, 3)
    shop.goAway(true)
    expect(await device.practice.share(ANA, true)).toBe('to-be-shared')
    expect(await device.practice.sharing(ANA)).toBe('to-be-shared')
    shop.goAway(false)
    await device.practice.use(ANA)
    expect(shop.words()).toEqual(['all done'])
    expect(await device.practice.sharing(ANA)).toBe('shared')
  })

  test('withdrawn with the server away, it is never sent again, and removed later', async () => {
    const device = aDevice(shop.shelf)
    await device.practises('all done', 1, 2, 3)
    await device.practice.share(ANA, true)
    shop.goAway(true)
    expect(await device.practice.share(ANA, false)).toBe('to-be-withdrawn')
    expect(await device.practice.sharing(ANA)).toBe('to-be-withdrawn')
    await device.practises('say again', 4, 5, 6)
    shop.goAway(false)
    await device.practice.use(ANA)
    expect(shop.words()).toBeNull()
    expect(shop.puts()).toBe(1)
    expect(device.told().map(([words]) => words)).toEqual(['all done', 'say again'])
  })

  test('forgotten with the server away, it does not come back from there', async () => {
    const device = aDevice(shop.shelf)
    await device.practises('all done', 1, 2, 3)
    await device.practice.share(ANA, true)
    shop.goAway(true)
    await device.practice.forget(ANA, null)
    shop.goAway(false)
    await device.practice.use(ANA)
    expect(device.told()).toEqual([])
    expect(shop.words()).toBeNull()
    await device.practice.use(ANA)
    expect(device.told()).toEqual([])
  })

  test('what is practised while the last is still under way is sent as well', async () => {
    const device = aDevice(shop.shelf)
    await device.practises('all done', 1, 2, 3)
    await device.practice.share(ANA, true)
    const arrive = shop.slow()
    await device.practises('say again', 4, 5, 6)
    await expect.poll(shop.puts).toBe(2)
    await device.practises('go back', 7, 8, 9)
    arrive()
    await expect.poll(shop.words).toEqual(['all done', 'go back', 'say again'])
  })

  test('what was withdrawn here is removed there though its owner never comes back to this device', async () => {
    const [device, other] = [aDevice(shop.shelf), aDevice(shop.shelf)]
    await device.practises('all done', 1, 2, 3)
    await device.practice.share(ANA, true)
    shop.goAway(true)
    await device.practice.forget(ANA, null)
    shop.goAway(false)
    await device.practice.use({ operator: 'Ben', language: 'en' })
    expect(shop.words()).toBeNull()
    await other.practice.use(ANA)
    expect(other.told()).toEqual([])
  })

  test('where the server refuses it, nothing was agreed to', async () => {
    const device = aDevice({ ...shop.shelf, put: async () => 'refused' })
    await device.practises('all done', 1, 2, 3)
    expect(await device.practice.share(ANA, true)).toBe('refused')
    expect(await device.practice.sharing(ANA)).toBe('not-shared')
  })

  test('what becomes of new takes is told to whoever practises', async () => {
    const device = aDevice(shop.shelf)
    await device.practises('all done', 1, 2, 3)
    await expect.poll(() => device.sharings).toEqual(['not-shared'])
    await device.practice.share(ANA, true)
    shop.goAway(true)
    await device.practises('say again', 4, 5, 6)
    await expect.poll(() => device.sharings).toEqual(['not-shared', 'to-be-shared'])
  })

  test('withdrawn while it is being sent, it is not there in the end', async () => {
    const device = aDevice(shop.shelf)
    await device.practises('all done', 1, 2, 3)
    await Promise.all([device.practice.share(ANA, true), device.practice.share(ANA, false)])
    expect(shop.words()).toBeNull()
    expect(await device.practice.sharing(ANA)).toBe('not-shared')
  })
})

describe('a server that was set back to an older backup', () => {
  test('from before the voice: no device forgets it, and the server has it again', async () => {
    const setBack = shop.backUp()
    const [one, other] = [aDevice(shop.shelf), aDevice(shop.shelf)]
    await one.practises('all done', 1, 2, 3)
    await one.practice.share(ANA, true)
    await other.practice.use(ANA)
    setBack()
    await other.practice.use(ANA)
    expect(other.told()).toEqual([['all done', [1, 2, 3]]])
    await one.practice.use(ANA)
    expect(one.told()).toEqual([['all done', [1, 2, 3]]])
    expect(shop.words()).toEqual(['all done'])
  })

  test('with an older voice: what was practised since is kept, and sent again', async () => {
    const device = aDevice(shop.shelf)
    await device.practises('all done', 1, 2, 3)
    await device.practice.share(ANA, true)
    const setBack = shop.backUp()
    await device.practises('say again', 4, 5, 6)
    await expect.poll(shop.words).toEqual(['all done', 'say again'])
    setBack()
    await device.practice.use(ANA)
    expect(device.told().map(([words]) => words)).toEqual(['all done', 'say again'])
    expect(shop.words()).toEqual(['all done', 'say again'])
  })

  test('with a voice that was forgotten since: it is removed again', async () => {
    const [one, other] = [aDevice(shop.shelf), aDevice(shop.shelf)]
    await one.practises('all done', 1, 2, 3)
    await one.practice.share(ANA, true)
    const setBack = shop.backUp()
    await one.practice.forget(ANA, null)
    setBack()
    await one.practice.use(ANA)
    expect(one.told()).toEqual([])
    expect(shop.words()).toBeNull()
    await other.practice.use(ANA)
    expect(other.told()).toEqual([])
  })

  test('from when it was forgotten: agreed to again since, it stays', async () => {
    const device = aDevice(shop.shelf)
    await device.practises('all done', 1, 2, 3)
    await device.practice.share(ANA, true)
    await device.practice.share(ANA, false)
    const setBack = shop.backUp()
    await device.practice.share(ANA, true)
    setBack()
    await device.practice.use(ANA)
    expect(device.told()).toEqual([['all done', [1, 2, 3]]])
    expect(shop.words()).toEqual(['all done'])
  })
})

describe('learning from commands', () => {
  const stamp = counting()
  const step = (at: number, via: 'voice' | 'touch' = 'voice'): RunEvent =>
    stamp(at, via)({ type: 'step-done', lane: 'left', step: `s${at}`, round: 1, confirmation: 'everyday' })
  const back = (at: number): RunEvent => stamp(at, 'touch')({ type: 'taken-back', cancels: 'x' })

  async function atWork() {
    const device = aDevice(shop.shelf)
    await device.practises('all done', 1, 2, 3)
    await device.practice.use(ANA)
    return device
  }
  const learned = async ({ practice, told }: ReturnType<typeof aDevice>) => {
    await practice.use(ANA)
    return told()
  }

  test('one that counted, once another has counted after it', async () => {
    const device = await atWork()
    device.hears('all done', 10)
    await device.practice.cameOf('all done', [step(1)], 0)
    expect(await device.practice.learned(ANA)).toBe(0)
    device.hears('all done', 11)
    await device.practice.cameOf('all done', [step(1), step(2)], 1)
    expect(await learned(device)).toEqual([['all done', [1, 2, 3, 10]]])
  })

  test('not one that was taken back, however', async () => {
    const device = await atWork()
    device.hears('all done', 10)
    await device.practice.cameOf('all done', [step(1)], 0)
    device.hears('all done', 11)
    await device.practice.cameOf('all done', [step(1), back(2), step(3)], 2)
    expect(await device.practice.learned(ANA)).toBe(0)
  })

  test.each([
    ['that changed nothing', []],
    ['that was refused', [stamp(1)({ type: 'refused', reason: 'not-asked', lane: null } as never)]],
    ['while a touch counted', [step(1, 'touch')]]
  ] as const)('not one %s', async (_, events) => {
    const device = await atWork()
    device.hears('all done', 10)
    await device.practice.cameOf('all done', [...events], 0)
    device.hears('all done', 11)
    await device.practice.cameOf('all done', [...events, step(5)], events.length)
    expect(await device.practice.learned(ANA)).toBe(0)
  })

  test('not one that was heard with less certainty, nor a phrase that nobody practised', async () => {
    const device = await atWork()
    device.hears('say again', 10)
    await device.practice.cameOf('all done', [step(1)], 0)
    await device.practice.cameOf('say again', [step(1), step(2)], 1)
    await device.practice.cameOf('say again', [step(1), step(2), step(3)], 2)
    expect(await device.practice.learned(ANA)).toBe(0)
  })

  test('the three newest, beside what was practised; and all of it can be forgotten', async () => {
    const device = await atWork()
    const events: RunEvent[] = []
    for (let turn = 0; turn < 6; turn++) {
      device.hears('all done', 10 + turn)
      events.push(step(turn))
      await device.practice.cameOf('all done', [...events], turn)
    }
    expect(await learned(device)).toEqual([['all done', [1, 2, 3, 12, 13, 14]]])
    await device.practice.forgetLearned(ANA)
    expect(await learned(device)).toEqual([['all done', [1, 2, 3]]])
  })

  test('what was learned stays when another device has practised more', async () => {
    const [device, other] = [await atWork(), aDevice(shop.shelf)]
    await device.practice.share(ANA, true)
    for (const turn of [0, 1]) {
      device.hears('all done', 10 + turn)
      await device.practice.cameOf('all done', [step(0), step(1)].slice(0, turn + 1), turn)
    }
    await other.practice.use(ANA)
    await other.practises('say again', 4, 5, 6)
    await expect.poll(shop.puts).toBe(2)
    expect(await learned(device)).toEqual([
      ['all done', [1, 2, 3, 10]],
      ['say again', [4, 5, 6]]
    ])
    await other.practice.forget(ANA, 'all done')
    expect(await learned(device)).toEqual([['say again', [4, 5, 6]]])
    expect(await device.practice.learned(ANA)).toBe(0)
  })

  test('what was learned is not sent to the server', async () => {
    const device = await atWork()
    for (const turn of [0, 1]) {
      device.hears('all done', 10 + turn)
      await device.practice.cameOf('all done', [step(0), step(1)].slice(0, turn + 1), turn)
    }
    await device.practice.share(ANA, true)
    expect(shop.takes()).toEqual([{ words: 'all done', takes: [take(1), take(2), take(3)] }])
  })
})
