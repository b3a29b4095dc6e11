import { expect, test } from 'vitest'
import { parse } from 'yaml'
import { saidOfStep } from './said-of-step.ts'

const STEP = parse(`
say: {en: Wipe the blade., es: Limpie la cuchilla.}
more: {en: From the middle outwards.}
confirm: {en: power is off, es: corriente apagada}
cautions:
  - signal: danger
    hazard: {en: Sharp blade., es: Cuchilla afilada.}
    consequence: {en: It cuts., es: Corta.}
    avoid: {en: Wear the glove., es: Use el guante.}
  - {signal: loud, hazard: {en: Wet floor.}, consequence: '', avoid: ''}
  - {signal: notice}
wait: {for: soak, at most: 10 min, late: {say: {en: Rinse it again.}, redo: rinse}}
ask:
  question: {en: Is it clean?, es: '¿Está limpia?'}
  if not: [{en: Wipe it again., es: Límpiela otra vez.}, {en: Change the cloth.}]
`) as unknown

test('cautions with their signal word first, then step, question, phrase and what to do when it is bad', () => {
  expect(saidOfStep([STEP], [0], 'en', 'en')).toEqual([
    { kind: 'caution', signal: 'danger', hazard: 'Sharp blade.', consequence: 'It cuts.', avoid: 'Wear the glove.' },
    { kind: 'caution', signal: null, hazard: 'Wet floor.', consequence: '', avoid: '' },
    { kind: 'text', text: 'Wipe the blade.' },
    { kind: 'text', text: 'Is it clean?' },
    { kind: 'text', text: 'From the middle outwards.' },
    { kind: 'confirm', phrase: 'power is off' },
    { kind: 'corrections', actions: ['Wipe it again.', 'Change the cloth.'] },
    { kind: 'corrections', actions: ['Rinse it again.'] }
  ])
})

test('in another language only what is written in it', () => {
  expect(saidOfStep([STEP], [0], 'es', 'en')).toEqual([
    { kind: 'caution', signal: 'danger', hazard: 'Cuchilla afilada.', consequence: 'Corta.', avoid: 'Use el guante.' },
    { kind: 'text', text: 'Limpie la cuchilla.' },
    { kind: 'text', text: '¿Está limpia?' },
    { kind: 'confirm', phrase: 'corriente apagada' },
    { kind: 'corrections', actions: ['Límpiela otra vez.'] }
  ])
})

test('of a step that is only begun, nothing', () => {
  expect(saidOfStep([{ step: 'new', cautions: [null], ask: 'x' }], [0], 'en', 'en')).toEqual([])
})
