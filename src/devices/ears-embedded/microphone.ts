/** The microphone as a stream of samples at 16 kHz. */
import { resampler } from '../../core/ears/resample.ts'
import { SAMPLE_RATE } from '../../core/ears/sound.ts'
import tapUrl from './microphone.worklet.ts?worker&url'

export interface MicrophoneNews {
  samples(samples: Float32Array): void
  /** Unplugged, or taken away by the system. */
  lost(): void
}

export interface Microphone {
  close(): void
}

/** Automatic gain would lift the noise between the words; the echo of our own voice is better gone. */
const WANTED: MediaTrackConstraints = {
  channelCount: 1,
  echoCancellation: true,
  noiseSuppression: false,
  autoGainControl: false
}

/** @throws DOMException as getUserMedia does: `NotAllowedError`, `NotFoundError` and others. */
export async function openMicrophone(news: MicrophoneNews): Promise<Microphone> {
  const stream = await navigator.mediaDevices.getUserMedia({ audio: WANTED })
  let context: AudioContext | null = null
  const close = () => {
    for (const track of stream.getTracks()) track.stop()
    // Losing the microphone, failing to open it and being told to stop may all lead here.
    if (context !== null && context.state !== 'closed') void context.close()
  }
  try {
    context = contextFor(stream)
    await context.audioWorklet.addModule(tapUrl)
    const tap = new AudioWorkletNode(context, 'tap')
    const convert = resampler(context.sampleRate, SAMPLE_RATE)
    tap.port.addEventListener('message', ({ data }: MessageEvent<Float32Array>) => news.samples(convert(data)))
    tap.port.start()
    // Only what leads to the loudspeaker is worked on; the tap itself is silent.
    context.createMediaStreamSource(stream).connect(tap).connect(context.destination)
    await context.resume()
  } catch (failure) {
    close()
    throw failure
  }
  stream.getAudioTracks()[0]?.addEventListener('ended', news.lost)
  return { close }
}

/** Firefox takes a microphone only at its own rate. */
function contextFor(stream: MediaStream): AudioContext {
  const wanted = new AudioContext({ sampleRate: SAMPLE_RATE })
  try {
    wanted.createMediaStreamSource(stream)
    return wanted
  } catch {
    void wanted.close()
    return new AudioContext()
  }
}
