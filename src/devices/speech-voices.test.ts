import { describe, expect, test } from 'vitest'
import { fakeClock } from '../../tests/helpers/fake-clock.ts'
import { ENGLISH, fakeSynthesizer } from '../../tests/helpers/fake-synthesizer.ts'
import { lateVoices, pickVoice } from './speech-voices.ts'

const voice = (lang: string, localService: boolean, isDefault = false) => ({ lang, localService, default: isDefault })

describe('picking a voice', () => {
  test('a voice on the device comes before the exact region from the network', () => {
    const local = voice('es-ES', true)
    expect(pickVoice([voice('es-MX', false), local, voice('en-US', true)], 'es-MX')).toBe(local)
  })

  test('among those on the device the exact region wins, then the default', () => {
    const exact = voice('en-GB', true)
    expect(pickVoice([voice('en-US', true, true), exact], 'en-GB')).toBe(exact)
    const usual = voice('en-US', true, true)
    expect(pickVoice([voice('en-GB', true), usual], 'en')).toBe(usual)
  })

  test('Android writes its tags with an underscore', () => {
    const android = voice('es_US', true)
    expect(pickVoice([voice('en_US', true), android], 'es')).toBe(android)
  })

  test('a remote voice is better than none, another language is not', () => {
    const remote = voice('es-ES', false)
    expect(pickVoice([remote], 'es')).toBe(remote)
    expect(pickVoice([voice('en-US', true)], 'es')).toBe(null)
    expect(pickVoice([voice('est-EE', true)], 'es')).toBe(null)
  })
})

describe('waiting for voices', () => {
  test('takes them from the event', () => {
    const list = fakeSynthesizer([])
    const clock = fakeClock()
    const voices = lateVoices(list, clock)
    expect(voices.state()).toBe('waiting')
    list.setVoices([ENGLISH])
    expect(voices.state()).toBe('some')
    clock.advance(10_000)
    expect(clock.pending()).toBe(0)
  })

  test('finds them by asking where no event comes', () => {
    const list = fakeSynthesizer([])
    const clock = fakeClock()
    const voices = lateVoices(list, clock)
    list.setVoices([ENGLISH], { tell: false })
    clock.advance(250)
    expect(voices.state()).toBe('some')
  })

  test('gives up after 5 s, and still takes late ones; notices when all are gone', () => {
    const list = fakeSynthesizer([])
    const clock = fakeClock()
    const voices = lateVoices(list, clock)
    let told = 0
    voices.onState(() => told++)
    clock.advance(4999)
    expect(voices.state()).toBe('waiting')
    clock.advance(1)
    expect(voices.state()).toBe('none')
    expect(clock.pending()).toBe(0)
    list.setVoices([ENGLISH])
    expect(voices.state()).toBe('some')
    list.setVoices([])
    expect(voices.state()).toBe('none')
    expect(told).toBe(3)
  })
})
