import type { Recogniser } from '../../src/devices/recogniser.ts'
import type { FakeClock } from './fake-clock.ts'

/** What one recogniser object does when told; nothing happens by itself. */
export interface FakeSession extends Recogniser {
  readonly number: number
  /** Between `start()` and `end`; an error or an abort without an `end` counts as alive for one second more. */
  alive(): boolean
  /** `start`, `audiostart`, `soundstart`, `speechstart`, `nomatch`, `audioend` and the like. */
  fire(type: string): void
  error(code: string): void
  end(): void
  /** One result; a number with the words is the confidence, 0.9 when left out. */
  result(
    words: string | readonly (readonly [string, number])[],
    options?: { final?: boolean; index?: number; confidence?: number }
  ): void
}

export interface FakeRecognisers {
  readonly make: () => Recogniser
  readonly all: readonly FakeSession[]
  /** The newest; throws when none was made. */
  last(): FakeSession
  /** Makes the next `start()` throw. */
  refuseNext(name: string): void
  /** Starts that should not have been. Each also fails the test run, since the code under test may swallow it. */
  readonly faults: readonly Error[]
}

/** `startAllowed` is asked at every start and may throw; use it to state when starting is wrong. */
export function fakeRecognisers(clock: FakeClock, startAllowed: () => void = () => {}): FakeRecognisers {
  const all: FakeSession[] = []
  const faults: Error[] = []
  let refusal: string | null = null
  const check = (what: () => void) => {
    try {
      what()
    } catch (fault) {
      faults.push(fault as Error)
      queueMicrotask(() => {
        throw fault
      })
    }
  }

  const make = (): FakeSession => {
    const target = new EventTarget()
    let began = false
    let over = false
    let letGoAt: number | null = null
    const send = (type: string, extra: object = {}) => void target.dispatchEvent(Object.assign(new Event(type), extra))
    const letGo = () => {
      letGoAt ??= clock.steady() + 1000
    }
    const session: FakeSession = {
      number: all.length + 1,
      lang: '',
      continuous: false,
      interimResults: false,
      maxAlternatives: 1,
      addEventListener: (type, listener) => target.addEventListener(type, listener),
      start() {
        if (began) throw new DOMException('recognition has already started', 'InvalidStateError')
        check(startAllowed)
        for (const other of all.filter((one) => one !== session && one.alive())) {
          check(() => {
            throw new Error(`Session ${other.number} is alive, and ${session.number} starts.`)
          })
        }
        if (refusal) {
          const name = refusal
          refusal = null
          throw new DOMException('refused', name)
        }
        began = true
      },
      abort: letGo,
      alive: () => began && !over && !(letGoAt !== null && clock.steady() >= letGoAt),
      fire: (type) => send(type),
      error(code) {
        letGo()
        send('error', { error: code })
      },
      end() {
        over = true
        send('end')
      },
      result(words, { final = true, index = 0, confidence = 0.9 } = {}) {
        const heard = typeof words === 'string' ? [[words, confidence] as const] : words
        const result = {
          isFinal: final,
          length: heard.length,
          ...Object.fromEntries(heard.map(([transcript, sure], at) => [at, { transcript, confidence: sure }]))
        }
        send('result', { resultIndex: index, results: { length: index + 1, [index]: result } })
      }
    }
    all.push(session)
    return session
  }

  return {
    make,
    all,
    faults,
    last() {
      const session = all.at(-1)
      if (!session) throw new Error('No recogniser was made yet.')
      return session
    },
    refuseNext(name) {
      refusal = name
    }
  }
}
