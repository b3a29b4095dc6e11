import { expect, test } from 'vitest'
import { fakeClock } from '../../tests/helpers/fake-clock.ts'
import { fakeEars } from '../../tests/helpers/fake-ears.ts'
import { vocabularyEn } from '../core/talk/vocabulary.en.ts'
import { vocabularyEs } from '../core/talk/vocabulary.es.ts'
import { screenWordsEn } from '../screens/words.en.ts'
import { screenWordsEs } from '../screens/words.es.ts'
import { attentiveEars } from './ears-attentive.ts'

const WORD = vocabularyEn.attention[0] ?? ''

function inLoudPlace() {
  const clock = fakeClock()
  const inner = fakeEars(clock)
  const ears = attentiveEars(inner, clock)
  const heard: string[] = []
  const missed: string[] = []
  ears.onHeard(({ alternatives }) => heard.push(alternatives.map(({ words }) => words).join(' / ')))
  ears.onMissed((closest) => missed.push(...closest))
  ears.start('en')
  ears.expect(['all done', 'say again'])
  ears.attend(vocabularyEn.attention)
  return { clock, inner, ears, heard, missed }
}

test('without the word nothing counts, and the ears say that they wait for it', () => {
  const { inner, ears, heard, missed } = inLoudPlace()
  expect(ears.state()).toEqual({ kind: 'waiting-for-word' })
  inner.say('all done')
  inner.almost('say again')
  expect([heard, missed]).toEqual([[], []])
})

test('after the word commands count for some seconds, each of them for some more', () => {
  const { clock, inner, ears, heard } = inLoudPlace()
  inner.say(WORD)
  expect(ears.state()).toEqual({ kind: 'listening' })
  clock.advance(7999)
  inner.say('all done')
  clock.advance(7999)
  inner.say('say again')
  clock.advance(8000)
  expect(ears.state()).toEqual({ kind: 'waiting-for-word' })
  inner.say('all done')
  expect(heard).toEqual(['all done', 'say again'])
})

test('in one breath with the command, as a recogniser of the browser hears it', () => {
  const { inner, heard } = inLoudPlace()
  inner.mishear('hello side call, all done', 'yellow side call all done')
  expect(heard).toEqual(['all done'])
})

test('what the app says in between does not count, so that its question can be answered', () => {
  const { clock, inner, ears, heard } = inLoudPlace()
  inner.say(WORD)
  clock.advance(5000)
  ears.gate()
  clock.advance(20_000)
  ears.open()
  clock.advance(7000)
  inner.say('yes')
  expect(heard).toEqual(['yes'])
})

test('our own ears listen for the word alone, and then for what may be said', () => {
  const { clock, inner } = inLoudPlace()
  expect(inner.expected).toEqual([WORD])
  inner.say(WORD)
  expect(inner.expected).toEqual(['all done', 'say again', WORD])
  clock.advance(8000)
  expect(inner.expected).toEqual([WORD])
})

test('only whoever has called is heard with less certainty', () => {
  const { clock, inner, ears } = inLoudPlace()
  expect(inner.expectedOf).toBe('whoever-calls')
  inner.say(WORD)
  expect(inner.expectedOf).toBe('caller')
  clock.advance(8000)
  expect(inner.expectedOf).toBe('whoever-calls')
  inner.say(WORD)
  ears.attend(null)
  expect(inner.expectedOf).toBe('anybody')
})

test('whoever touches the ears is heard without it', () => {
  const { inner, ears, heard } = inLoudPlace()
  ears.stop()
  ears.start('en')
  inner.say('all done')
  expect(heard).toEqual(['all done'])
})

test('switched off again, everything counts', () => {
  const { inner, ears, heard, missed } = inLoudPlace()
  ears.attend(null)
  expect(ears.state()).toEqual({ kind: 'listening' })
  inner.say('all done')
  inner.almost('say again')
  expect([heard, missed]).toEqual([['all done'], ['say again']])
  expect(inner.expected).toEqual(['all done', 'say again'])
})

test('deaf ears look deaf, word or not', () => {
  const { inner, ears } = inLoudPlace()
  inner.goDeaf('no-microphone')
  expect(ears.state()).toEqual({ kind: 'deaf', reason: 'no-microphone' })
})

test('the screen names the word that the ears listen for, in each language', () => {
  expect(screenWordsEn.guards.waiting).toContain(`"${WORD}"`)
  expect(screenWordsEs.guards.waiting).toContain(`"${vocabularyEs.attention[0]}"`)
})
