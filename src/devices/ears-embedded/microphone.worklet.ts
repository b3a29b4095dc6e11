/** Runs in the audio thread: passes the microphone's samples on in portions of about 32 ms. */

declare const sampleRate: number
declare class AudioWorkletProcessor {
  readonly port: MessagePort
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void

/** Sent away, an array has no length any more. */
const PORTION_SAMPLES = Math.round(sampleRate * 0.032)

class Tap extends AudioWorkletProcessor {
  private portion = new Float32Array(PORTION_SAMPLES)
  private filled = 0

  process([input]: readonly (readonly Float32Array[])[]): boolean {
    for (const value of input?.[0] ?? []) {
      this.portion[this.filled] = value
      this.filled += 1
      if (this.filled < PORTION_SAMPLES) continue
      this.port.postMessage(this.portion, [this.portion.buffer])
      this.portion = new Float32Array(PORTION_SAMPLES)
      this.filled = 0
    }
    return true
  }
}

registerProcessor('tap', Tap)
