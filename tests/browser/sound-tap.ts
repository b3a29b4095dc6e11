/**
 * Listens to what a page really sends to the loudspeaker. `installSoundTap` runs inside the page before its scripts; the
 * listener itself runs on the audio thread, so a page that is busy or hidden does not hold it up.
 */
import type { Page } from 'playwright-core'

export interface SoundBegun {
  /** When it left the loudspeaker, on the page's performance clock, ms. */
  readonly at: number
  /** The tab was hidden when the page was told. */
  readonly hidden: boolean
}

export interface SoundTap {
  /** Every beginning of a sound after at least a second of silence. */
  readonly begun: SoundBegun[]
  /** True once a running sound output is listened to. */
  listening: boolean
}

declare global {
  // Only inside the page.
  var sidecallSound: SoundTap
}

/** Call before the page is opened. */
export async function tapSound(page: Page): Promise<void> {
  const session = await page.context().newCDPSession(page)
  // The listener is a script of ours, which the page's content security policy rightly forbids.
  await session.send('Page.setBypassCSP', { enabled: true })
  await page.addInitScript(installSoundTap)
}

function installSoundTap(): void {
  const tap: SoundTap = { begun: [], listening: false }
  Object.defineProperty(window, 'sidecallSound', { value: tap })
  const onAudioThread = `
    registerProcessor('sound-tap', class extends AudioWorkletProcessor {
      quiet = sampleRate
      process([input]) {
        const samples = input[0] ?? []
        const first = samples.findIndex((sample) => Math.abs(sample) > 0.01)
        if (first >= 0 && this.quiet >= sampleRate) this.port.postMessage((currentFrame + first) / sampleRate)
        this.quiet = first >= 0 ? 0 : this.quiet + 128
        return true
      }
    })`
  const connect = AudioNode.prototype.connect as (this: AudioNode, target: AudioNode) => AudioNode
  async function listenTo(source: AudioNode): Promise<void> {
    const context = source.context as AudioContext
    const address = URL.createObjectURL(new Blob([onAudioThread], { type: 'text/javascript' }))
    await context.audioWorklet.addModule(address)
    const listener = new AudioWorkletNode(context, 'sound-tap', { numberOfOutputs: 0 })
    listener.port.addEventListener('message', ({ data }: MessageEvent<number>) => {
      const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp()
      tap.begun.push({ at: performanceTime + (data - contextTime) * 1000, hidden: document.hidden })
    })
    listener.port.start()
    connect.call(source, listener)
    tap.listening = true
  }
  AudioNode.prototype.connect = function (this: AudioNode, target: AudioNode): AudioNode {
    if (target instanceof AudioDestinationNode) void listenTo(this)
    return Reflect.apply(connect, this, arguments)
  } as typeof AudioNode.prototype.connect
}
