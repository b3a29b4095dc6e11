/** The embedded ears as a whole: files, worker and microphone, of which there is one each. */
import type { Speaker } from '../../core/ears/listener.ts'
import type { Takes } from '../../core/ears/phrasebook.ts'
import type { Utterance } from '../../core/ears/utterance.ts'
import type { FromDesk, EarFiles, ToDesk } from './desk-messages.ts'
import type { Microphone, MicrophoneNews } from './microphone.ts'

/** The part of a worker that is used here. */
export interface EarsWorker {
  postMessage(message: ToDesk, transfer?: Transferable[]): void
  addEventListener(type: 'message', listener: (event: { readonly data: FromDesk }) => void): void
  addEventListener(type: 'error', listener: () => void): void
}

export interface EngineParts {
  readonly startWorker: () => EarsWorker
  readonly files: () => Promise<EarFiles>
  readonly openMicrophone: (news: MicrophoneNews) => Promise<Microphone>
}

export type EngineFailure = 'not-allowed' | 'audio-capture' | 'network'

export interface StreamNews {
  began(): void
  told(message: FromDesk): void
  /** The stream is over. The names are those of the standard recognition interface. */
  failed(why: EngineFailure): void
}

export interface Engine {
  /** Loads everything, once; false when that failed, and the next call tries again. */
  prepare(): Promise<boolean>
  isPrepared(): boolean
  practised(takes: readonly Takes[]): void
  listenFor(words: readonly string[] | null, speaker: Speaker): void
  /** The last thing heard, if it was heard with much certainty. */
  lastCertain(): { readonly words: string; readonly utterance: Utterance } | null
  /** Opens the microphone; one stream at a time, the older one ends. Returns how to end it. */
  stream(practising: string | null, news: StreamNews): () => void
}

export function engine(parts: EngineParts): Engine {
  let worker: EarsWorker | null = null
  let isReady = false
  /** Told before there is a worker, too. */
  let wanted: Extract<ToDesk, { kind: 'listen-for' }> = { kind: 'listen-for', words: null, speaker: 'anybody' }
  let preparing: Promise<boolean> | null = null
  let current: StreamNews | null = null
  let stopCurrent = () => {}
  let lastCertain: ReturnType<Engine['lastCertain']> = null

  function noteCertain({ candidates: [best], certain }: Extract<FromDesk, { kind: 'found' }>): void {
    lastCertain = best && certain ? { words: best.words, utterance: certain } : null
  }
  function tell(message: ToDesk, transfer: Transferable[] = []): void {
    worker?.postMessage(message, transfer)
  }

  async function prepare(): Promise<boolean> {
    try {
      const files = await parts.files()
      const fresh = parts.startWorker()
      const prepared = new Promise<boolean>((decide) => {
        fresh.addEventListener('message', ({ data }) => {
          if (data.kind === 'prepared') decide(true)
          if (data.kind === 'broken') {
            decide(false)
            current?.failed('network')
          }
          if (data.kind === 'found') noteCertain(data)
          current?.told(data)
        })
        fresh.addEventListener('error', () => decide(false))
      })
      fresh.postMessage({ kind: 'prepare', files }, [])
      worker = fresh
      tell(wanted)
      return await prepared
    } catch {
      return false
    }
  }

  const engineItself: Engine = {
    prepare() {
      preparing ??= prepare().then((prepared) => {
        isReady = prepared
        if (!prepared) preparing = null
        return prepared
      })
      return preparing
    },
    isPrepared: () => isReady,
    practised(takes) {
      tell({ kind: 'practised', takes })
    },
    listenFor(words, speaker) {
      wanted = { kind: 'listen-for', words, speaker }
      tell(wanted)
    },
    lastCertain: () => lastCertain,
    stream(practising, news) {
      stopCurrent()
      let microphone: Microphone | null = null
      let isOver = false
      const mine: StreamNews = { ...news, failed: (why) => fail(why) }
      const stop = () => {
        isOver = true
        microphone?.close()
        if (current === mine) current = null
      }
      const fail = (why: EngineFailure) => {
        if (isOver) return
        stop()
        news.failed(why)
      }
      stopCurrent = stop
      const open = async () => {
        if (!(await engineItself.prepare())) return fail('network')
        if (isOver) return
        tell({ kind: 'begin', practising })
        current = mine
        try {
          const opened = await parts.openMicrophone({
            samples(samples) {
              if (!isOver && current === mine) tell({ kind: 'samples', samples }, [samples.buffer as ArrayBuffer])
            },
            lost: () => fail('audio-capture')
          })
          microphone = opened
          if (isOver) opened.close()
          else news.began()
        } catch (failure) {
          const name = failure instanceof DOMException ? failure.name : ''
          fail(name === 'NotAllowedError' || name === 'SecurityError' ? 'not-allowed' : 'audio-capture')
        }
      }
      void open()
      return stop
    }
  }
  return engineItself
}
