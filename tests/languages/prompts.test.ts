/** What Sidecall says in Spanish against the ears that listen for Spanish: only a prompt that teaches a word has it. */
import { expect, it, test } from 'vitest'
import { talkIn } from '../../src/core/talk/languages.ts'
import { tokens } from '../../src/core/talk/tokens.ts'
import { CALLS } from './calls.ts'
import { pairsIn } from './walk-texts.ts'

const [english, { words, soundCheck, vocabulary }] = await Promise.all([talkIn('en'), talkIn('es')])

/** Spanish has no sentence without them. Heard alone they answer a question; within a sentence they mean nothing. */
const UNAVOIDABLE = ['no', 'más']
const FIXED = ['ya está corregido', 'ya está', 'ya', 'corregido']
/** They teach the operator what to say at this moment. */
const TEACHES: Readonly<Record<string, readonly string[]>> = {
  'talk.cautionHint': ['sí'],
  'talk.alarmHint': ['sí'],
  'talk.askDone': ['listo'],
  'talk.stepHint': ['eso es'],
  'talk.correctionHint': FIXED,
  'talk.problemHint': FIXED,
  'talk.problemNoted': FIXED,
  'talk.problem': ['problema'],
  'talk.refusal': ['sí', 'sigamos adelante', 'sigamos', 'adelante'],
  // Typed or touched afterwards, and said again by whoever was not kept.
  'talk.notKept.full': ['otra vez'],
  'talk.notKept.unavailable': ['otra vez']
}
/** Lists of what can be said, and names. */
const NO_PROMPT = /^talk\.(?:phrase|answeredYesNo|list|goTo)/

const said = pairsIn({ talk: english.words, check: english.soundCheck }, { talk: words, check: soundCheck }, CALLS)
const commands = [
  ...Object.values(vocabulary.phrases).flat(),
  ...Object.keys(vocabulary.ambiguous),
  ...['izquierda', 'derecha', 'mesa', 'máquina']
].filter((command) => !UNAVOIDABLE.includes(command))

test.each(said.filter(({ name }) => !NO_PROMPT.test(name)))('$name: $other', ({ name, other }) => {
  const text = ` ${tokens(other).join(' ')} `
  const found = commands.filter((command) => text.includes(` ${tokens(command).join(' ')} `))
  expect(found.filter((command) => !(TEACHES[name] ?? []).includes(command))).toEqual([])
})

it('tells times and lists as Spanish does', () => {
  expect(words.duration(61_000)).toBe('1 minuto 1 segundo')
  expect(words.duration(7_260_000)).toBe('2 horas 1 minuto')
  expect(words.time('Mesa', 'Tiempo de remojo', words.timeLeft(61_000))).toBe(
    'Mesa. Tiempo de remojo: falta 1 minuto 10 segundos.'
  )
  expect(words.readyBy('1:05 p. m.', '3 minutos')).toContain('a la 1:05')
  expect(words.readyBy('11:05 p. m.', '3 minutos')).toContain('a las 11:05')
  expect(words.list(['Mesa', 'Izquierda'], 'and')).toBe('Mesa e Izquierda')
  expect(words.list(['ir a mesa', 'otra vez'], 'or')).toBe('ir a mesa u otra vez')
  expect(words.list(['agua', 'hielo'], 'and')).toBe('agua y hielo')
})

it('never promises an end too early', () => {
  const SECONDS: Readonly<Record<string, number>> = { segundo: 1, minuto: 60, hora: 3600 }
  for (let ms = 0; ms < 8_000_000; ms += 7919) {
    const told = [...words.duration(ms).matchAll(/(\d+) (segundo|minuto|hora)/g)].reduce(
      (sum, [, value, unit = '']) => sum + Number(value) * (SECONDS[unit] ?? 0),
      0
    )
    expect(told * 1000).toBeGreaterThanOrEqual(ms)
  }
})
