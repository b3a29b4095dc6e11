import { expect, test } from 'vitest'
import { fakeVoicePractice } from '../../tests/helpers/fake-voice-practice.ts'
import { vocabularyEn } from '../core/talk/vocabulary.en.ts'
import type { Practiser, PracticeNews, VoicePractice } from '../ports/voice-practice.ts'
import { practiceRoom } from './practice-room.ts'

const WHO: Practiser = { operator: 'Ana', language: 'en' }

function fakePractice() {
  const takes = new Map<string, number>()
  let listening: { readonly words: string; readonly tell: (news: PracticeNews) => void } | null = null
  const practice: VoicePractice = {
    ...fakeVoicePractice(),
    takes: async () => new Map(takes),
    practise(who, words, tell) {
      expect(who).toEqual(WHO)
      expect(listening).toBeNull()
      listening = { words, tell }
      return () => {
        listening = null
      }
    },
    async forget(_who, words) {
      if (words === null) takes.clear()
      else takes.delete(words)
    }
  }
  const say = (news: (takes: number) => PracticeNews) => {
    if (!listening) throw new Error('Nobody listens.')
    const { words, tell } = listening
    const told = news((takes.get(words) ?? 0) + 1)
    if (told.kind === 'take' || told.kind === 'sounds-like') takes.set(words, told.takes)
    tell(told)
  }
  return { practice, say, words: () => listening?.words ?? null }
}

const good = (takes: number): PracticeNews => ({ kind: 'take', takes })

test('three good takes of a phrase lead to the next, and all phrases to the end', () => {
  const { practice, say, words } = fakePractice()
  const room = practiceRoom(practice, WHO, { vocabulary: vocabularyEn, confirming: ['power is off'] })
  room.start('all done')
  for (const phrase of room.phrases) {
    expect(words()).toBe(phrase)
    for (let take = 0; take < 3; take++) say(good)
  }
  expect(words()).toBeNull()
  expect(room.$practising.get()).toBeNull()
  expect(room.phrases.every((phrase) => room.$takes.get().get(phrase) === 3)).toBe(true)
})

test('a take that was too quiet counts for nothing and is told', () => {
  const { practice, say, words } = fakePractice()
  const room = practiceRoom(practice, WHO, { vocabulary: vocabularyEn, confirming: ['power is off'] })
  room.start('say again')
  say(() => ({ kind: 'level', peak: 0.2 }))
  say(() => ({ kind: 'fault', fault: 'too-quiet' }))
  expect(words()).toBe('say again')
  expect(room.$practising.get()).toEqual({
    words: 'say again',
    peak: 0.2,
    notice: { kind: 'fault', fault: 'too-quiet' }
  })
  expect(room.$takes.get().get('say again')).toBeUndefined()
})

test('a phrase that sounds like another stays, so that it can be said again', () => {
  const { practice, say, words } = fakePractice()
  const room = practiceRoom(practice, WHO, { vocabulary: vocabularyEn, confirming: ['power is off'] })
  room.start('next')
  for (let take = 0; take < 3; take++) say((takes) => ({ kind: 'sounds-like', other: 'next step', takes }))
  expect(words()).toBe('next')
})

test('what was decided about the server is seen at once, then what came of it', async () => {
  const { practice, say } = fakePractice()
  const decided: boolean[] = []
  const room = practiceRoom(
    {
      ...practice,
      sharing: async () => 'to-be-shared',
      async share(_who, wanted) {
        decided.push(wanted)
        return wanted ? 'refused' : 'not-shared'
      }
    },
    WHO,
    { vocabulary: vocabularyEn, confirming: [] }
  )
  await expect.poll(room.$sharing.get).toBe('to-be-shared')
  room.start('all done')
  say(() => ({ kind: 'sharing', sharing: 'shared' }))
  expect(room.$sharing.get()).toBe('shared')
  const withdrawing = room.share(false)
  expect(room.$sharing.get()).toBe('to-be-withdrawn')
  await withdrawing
  expect(room.$sharing.get()).toBe('not-shared')
  await room.share(true)
  expect([room.$sharing.get(), decided]).toEqual(['refused', [false, true]])
})

test('forgetting is seen at once', async () => {
  const { practice, say } = fakePractice()
  const room = practiceRoom(practice, WHO, { vocabulary: vocabularyEn, confirming: ['power is off'] })
  room.start('all done')
  say(good)
  await room.forget(null)
  expect(room.$takes.get().size).toBe(0)
})
