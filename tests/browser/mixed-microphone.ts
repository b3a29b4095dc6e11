/**
 * A microphone in a kitchen, for a real browser: it hears the operator, the room, whoever talks beside them, and
 * everything that the page itself sends to the loudspeaker, a moment later. `installMixedMicrophone` runs inside the page
 * before its scripts; nothing of the page is replaced but the device.
 */
import type { Page } from 'playwright-core'

export interface MixedMicrophone {
  /** Signed 16-bit samples at 16 kHz in base64. Resolves when it is over. */
  say(samples: string): Promise<void>
  /** Repeats until `hush`. */
  beside(samples: string): void
  hush(): void
  unplug(): void
  plug(): void
  /** The page listens to it now. */
  isOpen(): boolean
  /** Loudest sample so far of the page's own sound, as the microphone hears it. */
  ownPeak: number
}

declare global {
  // Only inside the page.
  var sidecallMicrophone: MixedMicrophone
}

/** Call before the page is opened. */
export async function mixMicrophone(page: Page): Promise<void> {
  // The transpiler may name functions through this helper, which a page does not have.
  await page.addInitScript('globalThis.__name = (named) => named')
  await page.addInitScript(installMixedMicrophone)
}

/** For `say` and `beside`, at this gain. */
export function packedSamples(samples: Float32Array, gain = 1): string {
  return Buffer.from(Int16Array.from(samples, (value) => Math.round(32_000 * gain * value)).buffer).toString('base64')
}

function installMixedMicrophone(): void {
  const RATE = 16_000
  /** From the loudspeaker to the microphone on the same shelf, with what the devices add. */
  const ECHO_SECONDS = 0.12
  const connect = AudioNode.prototype.connect as (this: AudioNode, target: AudioNode) => AudioNode
  let made: { readonly context: AudioContext; readonly mix: GainNode } | null = null
  const open = new Set<MediaStreamTrack>()
  let plugged = true
  let colleague: AudioBufferSourceNode | null = null

  /** Made with the first use: the page may not sound before a tap. */
  function device() {
    if (made) return made
    const context = new AudioContext()
    const mix = context.createGain()
    // No microphone gives zeros.
    const room = context.createBuffer(1, 2 * context.sampleRate, context.sampleRate)
    const hiss = room.getChannelData(0)
    for (let at = 0; at < hiss.length; at++) hiss[at] = 0.0004 * (Math.random() - 0.5)
    const source = context.createBufferSource()
    source.buffer = room
    source.loop = true
    connect.call(source, mix)
    source.start()
    void context.resume()
    made = { context, mix }
    return made
  }

  function source(samples: string): AudioBufferSourceNode {
    const { context, mix } = device()
    const bytes = Uint8Array.from(atob(samples), (letter) => letter.charCodeAt(0))
    const values = new Int16Array(bytes.buffer)
    const buffer = context.createBuffer(1, values.length, RATE)
    buffer.getChannelData(0).set(Float32Array.from(values, (value) => value / 32_768))
    const node = context.createBufferSource()
    node.buffer = buffer
    connect.call(node, mix)
    return node
  }

  const microphone: MixedMicrophone = {
    say: (samples) =>
      new Promise((over) => {
        const node = source(samples)
        node.addEventListener('ended', () => over())
        node.start()
      }),
    beside(samples) {
      colleague = source(samples)
      colleague.loop = true
      colleague.start()
    },
    hush() {
      colleague?.stop()
      colleague = null
    },
    unplug() {
      plugged = false
      for (const track of open) {
        track.stop()
        // A stop of our own tells nobody; a cable that is pulled does.
        track.dispatchEvent(new Event('ended'))
      }
      navigator.mediaDevices.dispatchEvent(new Event('devicechange'))
    },
    plug() {
      plugged = true
      navigator.mediaDevices.dispatchEvent(new Event('devicechange'))
    },
    isOpen: () => [...open].some(({ readyState }) => readyState === 'live'),
    ownPeak: 0
  }
  Object.defineProperty(window, 'sidecallMicrophone', { value: microphone })

  navigator.mediaDevices.getUserMedia = async () => {
    if (!plugged) throw new DOMException('Requested device not found', 'NotFoundError')
    const { context, mix } = device()
    const ear = context.createMediaStreamDestination()
    connect.call(mix, ear)
    for (const track of ear.stream.getTracks()) open.add(track)
    return ear.stream
  }

  const bridged = new WeakMap<BaseAudioContext, MediaStreamAudioDestinationNode>()
  function bridge(from: AudioContext): MediaStreamAudioDestinationNode {
    const known = bridged.get(from)
    if (known) return known
    const ear = from.createMediaStreamDestination()
    bridged.set(from, ear)
    const { context, mix } = device()
    const air = context.createDelay(1)
    air.delayTime.value = ECHO_SECONDS
    const meter = context.createAnalyser()
    connect.call(context.createMediaStreamSource(ear.stream), air)
    connect.call(air, meter)
    connect.call(meter, mix)
    const samples = new Float32Array(meter.fftSize)
    setInterval(() => {
      meter.getFloatTimeDomainData(samples)
      for (const sample of samples) microphone.ownPeak = Math.max(microphone.ownPeak, Math.abs(sample))
    }, 30)
    return ear
  }
  AudioNode.prototype.connect = function (this: AudioNode, target: AudioNode): AudioNode {
    // What listens to a microphone is connected to a loudspeaker too, and gives no sound.
    if (target instanceof AudioDestinationNode && !(this instanceof AudioWorkletNode))
      connect.call(this, bridge(this.context as AudioContext))
    return Reflect.apply(connect, this, arguments)
  } as typeof AudioNode.prototype.connect
}
