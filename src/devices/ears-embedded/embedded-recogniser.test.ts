import { describe, expect, test } from 'vitest'
import { promisesRun } from '../../../tests/helpers/fake-clock.ts'
import type { RecogniserErrorEvent, RecogniserResultEvent } from '../recogniser.ts'
import type { EarFiles, FromDesk, ToDesk } from './desk-messages.ts'
import { embeddedRecogniser } from './embedded-recogniser.ts'
import { engine } from './engine.ts'
import type { MicrophoneNews } from './microphone.ts'

function world(options: { readonly microphone?: DOMException; readonly broken?: boolean } = {}) {
  const sent: ToDesk[] = []
  let answer: (event: { readonly data: FromDesk }) => void = () => {}
  let microphone: MicrophoneNews | null = null
  const own = engine({
    startWorker: () => ({
      postMessage(message: ToDesk) {
        sent.push(message)
        if (message.kind === 'prepare')
          answer({ data: options.broken ? { kind: 'broken', message: 'no SIMD' } : { kind: 'prepared' } })
      },
      addEventListener(type: string, listener: (event: { readonly data: FromDesk }) => void) {
        if (type === 'message') answer = listener
      }
    }),
    files: async () => ({}) as EarFiles,
    async openMicrophone(news) {
      if (options.microphone) throw options.microphone
      microphone = news
      return {
        close() {
          microphone = null
        }
      }
    }
  })
  const recogniser = embeddedRecogniser(own)
  const events: string[] = []
  const results: { readonly words: string; readonly unsure: boolean }[] = []
  for (const type of ['start', 'end', 'nomatch', 'soundstart'])
    recogniser.addEventListener(type, () => events.push(type))
  recogniser.addEventListener('error', (event) => events.push(`error ${(event as RecogniserErrorEvent).error}`))
  recogniser.addEventListener('result', (event) => {
    const { results: all, resultIndex } = event as RecogniserResultEvent
    const result = all[resultIndex]
    results.push({ words: result?.[0]?.transcript ?? '', unsure: result?.unsure ?? false })
  })
  return {
    own,
    recogniser,
    events,
    results,
    sent,
    desk: (data: FromDesk) => answer({ data }),
    speak: (samples: Float32Array) => microphone?.samples(samples),
    unplug: () => microphone?.lost(),
    hasMicrophone: () => microphone !== null
  }
}

const found = (how: 'sure' | 'unsure' | 'unknown', words: string): FromDesk => ({
  kind: 'found',
  how,
  candidates: [{ words, score: 4 }],
  certain: null
})

describe('the embedded recogniser', () => {
  test('starts with the microphone, passes samples on, and tells what was found', async () => {
    const { recogniser, events, results, sent, desk, speak } = world()
    recogniser.start()
    await promisesRun()
    expect(events).toEqual(['start'])
    speak(new Float32Array(512))
    expect(sent.map(({ kind }) => kind)).toEqual(['prepare', 'listen-for', 'begin', 'samples'])
    desk(found('sure', 'all done'))
    desk(found('unsure', 'say again'))
    desk(found('unknown', ''))
    expect(results).toEqual([
      { words: 'all done', unsure: false },
      { words: 'say again', unsure: true }
    ])
    expect(events.at(-1)).toBe('nomatch')
  })

  test('what was to be listened for before there was a worker is told it', async () => {
    const { own, recogniser, sent } = world()
    own.listenFor(['all done'], 'caller')
    recogniser.start()
    await promisesRun()
    expect(sent).toContainEqual({ kind: 'listen-for', words: ['all done'], speaker: 'caller' })
  })

  test('aborted: the microphone is let go, the end comes, and nothing that was on its way counts', async () => {
    const { recogniser, events, results, desk, hasMicrophone } = world()
    recogniser.start()
    await promisesRun()
    recogniser.abort()
    expect(hasMicrophone()).toBe(false)
    await promisesRun()
    expect(events).toEqual(['start', 'end'])
    desk(found('sure', 'all done'))
    expect(results).toEqual([])
  })

  test.each([
    ['NotAllowedError', 'not-allowed'],
    ['NotFoundError', 'audio-capture'],
    ['NotReadableError', 'audio-capture']
  ])('a microphone that fails with %s is the error %s, then the end', async (name, error) => {
    const { recogniser, events } = world({ microphone: new DOMException('', name) })
    recogniser.start()
    await promisesRun()
    expect(events).toEqual([`error ${error}`, 'end'])
  })

  test('unplugged: an error and the end, and it may be started again', async () => {
    const { recogniser, events, unplug } = world()
    recogniser.start()
    await promisesRun()
    unplug()
    expect(events).toEqual(['start', 'error audio-capture', 'end'])
    recogniser.start()
    await promisesRun()
    expect(events.at(-1)).toBe('start')
  })

  test('models that do not run are an error', async () => {
    const { recogniser, events } = world({ broken: true })
    recogniser.start()
    await promisesRun()
    expect(events).toEqual(['error network', 'end'])
  })

  test('started twice is refused as the standard says', () => {
    const { recogniser } = world()
    recogniser.start()
    expect(() => recogniser.start()).toThrow('already started')
  })
})
