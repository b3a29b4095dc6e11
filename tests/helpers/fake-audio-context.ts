import type { FakeClock } from './fake-clock.ts'

export interface FakeAudioContext {
  readonly asContext: AudioContext
  /** Hertz of every oscillator that can be heard at this moment, through a path of open connections. */
  audible(): readonly number[]
  /** A buffer can be heard at this moment. */
  playing(): boolean
  /** The system takes sound away or gives it back. */
  become(state: 'suspended' | 'interrupted' | 'running'): void
  /** Says that it runs while its clock stands still. */
  freeze(): void
  readonly closed: boolean
}

export interface FakeAudio {
  readonly make: () => AudioContext
  readonly all: readonly FakeAudioContext[]
  last(): FakeAudioContext
  /** What `resume` does; `works` is a tap, or a browser that needs none. */
  resuming: 'works' | 'rejects' | 'never-answers' | 'runs-frozen'
  /** The next context cannot be made. */
  throwNext(): void
}

interface Node extends EventTarget {
  readonly outputs: Set<object>
}

/** Audio whose clock follows the fake clock while it runs. Using a closed context, or starting a node twice, throws. */
export function fakeAudio(clock: FakeClock): FakeAudio {
  const all: FakeAudioContext[] = []
  let throws = false

  const makeOne = (): FakeAudioContext => {
    const target = new EventTarget()
    const destination = { name: 'destination' }
    const buffers: { readonly node: Node; seconds: number; start: number; stop: number; ended: boolean }[] = []
    const oscillators: { readonly node: Node; hertz: number; start: number; stop: number }[] = []
    let state: 'suspended' | 'interrupted' | 'running' | 'closed' = 'suspended'
    let frozen = false
    let passed = 0
    let since = clock.steady()

    const time = () => passed + (state === 'running' && !frozen ? (clock.steady() - since) / 1000 : 0)
    const keepTime = () => {
      passed = time()
      since = clock.steady()
    }
    const become = (next: typeof state) => {
      if (state === next) return
      keepTime()
      state = next
      target.dispatchEvent(new Event('statechange'))
    }
    const open = () => {
      if (state === 'closed') throw new DOMException('the context is closed', 'InvalidStateError')
    }
    const node = () => {
      open()
      const outputs = new Set<object>()
      return Object.assign(new EventTarget(), {
        outputs,
        connect: (to: object) => {
          outputs.add(to)
          return to
        }
      })
    }
    const param = (value: number) => ({
      value,
      setValueAtTime: () => {},
      linearRampToValueAtTime: (_: number, at: number) => {
        if (at < 0) throw new RangeError('a ramp must not end before the clock began')
      }
    })
    const reaches = (from: object): boolean =>
      from === destination || ('outputs' in from && [...(from as Node).outputs].some(reaches))

    const context = {
      get state() {
        return state
      },
      get currentTime() {
        return time()
      },
      destination,
      addEventListener: (type: string, listener: () => void) => target.addEventListener(type, listener),
      async resume(): Promise<void> {
        open()
        if (audio.resuming === 'rejects') throw new DOMException('no tap', 'NotAllowedError')
        if (audio.resuming === 'never-answers') await new Promise(() => {})
        if (audio.resuming === 'runs-frozen') frozen = true
        become('running')
      },
      async close() {
        open()
        become('closed')
      },
      createGain: () => Object.assign(node(), { gain: param(1) }),
      createPeriodicWave: (real: Float32Array, imag: Float32Array) => ({ real, imag }),
      createAnalyser: () =>
        Object.assign(node(), {
          fftSize: 8,
          getFloatTimeDomainData: (into: Float32Array) => into.fill(fake.audible().length > 0 ? 0.5 : 0)
        }),
      createBuffer(channels: number, length: number, rate: number) {
        if (channels !== 1 || length < 1) throw new DOMException('no such buffer', 'NotSupportedError')
        const samples = new Float32Array(length)
        return { duration: length / rate, getChannelData: () => samples }
      },
      createBufferSource() {
        const made = node()
        const one = { node: made, seconds: 0, start: Number.NaN, stop: Number.POSITIVE_INFINITY, ended: false }
        buffers.push(one)
        const look = () => {
          if (one.ended || state === 'closed') return
          one.ended = time() >= Math.min(one.stop, one.start + one.seconds)
          if (one.ended) made.dispatchEvent(new Event('ended'))
          else clock.after(5, look)
        }
        Object.defineProperty(made, 'buffer', {
          set(buffer: { readonly duration: number }) {
            one.seconds = buffer.duration
          }
        })
        const playbackRate = { value: 1 }
        return Object.assign(made, {
          playbackRate,
          start(at: number) {
            if (!Number.isNaN(one.start)) throw new DOMException('started twice', 'InvalidStateError')
            one.start = at
            one.seconds /= playbackRate.value
            look()
          },
          stop(at: number) {
            if (Number.isNaN(one.start)) throw new DOMException('stopped before it started', 'InvalidStateError')
            one.stop = at
          }
        })
      },
      createOscillator() {
        const made = node()
        const one = { node: made, hertz: 0, start: Number.NaN, stop: Number.POSITIVE_INFINITY }
        oscillators.push(one)
        return Object.assign(made, {
          setPeriodicWave: () => {},
          frequency: {
            set value(hertz: number) {
              one.hertz = hertz
            }
          },
          start(at: number) {
            if (!Number.isNaN(one.start)) throw new DOMException('started twice', 'InvalidStateError')
            one.start = at
          },
          stop(at: number) {
            if (Number.isNaN(one.start)) throw new DOMException('stopped before it started', 'InvalidStateError')
            one.stop = at
          }
        })
      }
    }
    const fake: FakeAudioContext = {
      asContext: context as unknown as AudioContext,
      audible() {
        if (state !== 'running' || frozen) return []
        const now = time()
        return oscillators
          .filter((one) => one.start <= now && now < one.stop && reaches(one.node))
          .map((one) => one.hertz)
      },
      playing() {
        if (state !== 'running' || frozen) return false
        const now = time()
        return buffers.some(
          (one) => one.start <= now && now < Math.min(one.stop, one.start + one.seconds) && reaches(one.node)
        )
      },
      become,
      freeze() {
        keepTime()
        frozen = true
      },
      get closed() {
        return state === 'closed'
      }
    }
    return fake
  }

  const audio: FakeAudio = {
    all,
    make() {
      if (throws) {
        throws = false
        throw new DOMException('no sound hardware', 'NotSupportedError')
      }
      const made = makeOne()
      all.push(made)
      return made.asContext
    },
    last() {
      const made = all.at(-1)
      if (!made) throw new Error('No audio context was made yet.')
      return made
    },
    resuming: 'works',
    throwNext() {
      throws = true
    }
  }
  return audio
}
