/**
 * Finds utterances. A frame is speech when the voice model says so and it also stands out of the room: in steady noise
 * the model alone ends words much too late, and among clattering pans prominence alone does.
 */

export interface Segment {
  /** Frames of the stream; `end` is the first frame behind it. */
  readonly start: number
  readonly end: number
}

export interface SegmenterSettings {
  readonly beginVoice: number
  readonly stayVoice: number
  /** dB. */
  readonly beginProminence: number
  readonly stayProminence: number
  /** Where the model is this sure of a voice, power alone keeps an utterance going: dB above the room. */
  readonly sureVoice: number
  readonly stayAbove: number
  /** Frames without speech that end an utterance. */
  readonly hang: number
  readonly shortest: number
  /** The voice model wakes up late: how many frames before that a sound that stands out may belong to the utterance. */
  readonly reach: number
  /** Of the highest prominence lately. */
  readonly share: number
  /** Frames that a stop consonant may be silent. */
  readonly closure: number
}

export const SEGMENTER: SegmenterSettings = {
  beginVoice: 0.05,
  stayVoice: 0.02,
  beginProminence: 2,
  stayProminence: 1,
  sureVoice: 0.5,
  stayAbove: 12,
  hang: 20,
  shortest: 8,
  reach: 40,
  share: 0.5,
  closure: 12
}

/** `quiet` counts the frames since the last speech of the utterance that is going on. */
export type Hearing =
  | { readonly kind: 'nothing' }
  | { readonly kind: 'going-on'; readonly segment: Segment; readonly quiet: number }
  | { readonly kind: 'ended'; readonly segment: Segment }

export interface Segmenter {
  /** The next frame: probability of a voice, 0 to 1, prominence and power above the room, dB. */
  push(voice: number, prominence: number, above?: number): Hearing
}

export function segmenter(settings: SegmenterSettings = SEGMENTER): Segmenter {
  let at = -1
  let start: number | null = null
  let last = 0
  let lately: number[] = []

  /** How many frames back from now the sound began. A room without noise makes faint breaths stand out: they are left. */
  const begun = () => {
    const least = Math.max(settings.stayProminence, settings.share * Math.max(...lately))
    let back = 0
    for (let step = 1; step < lately.length && step - back <= settings.closure; step++) {
      if ((lately[lately.length - 1 - step] ?? 0) > least) back = step
    }
    return back
  }

  return {
    push(voice, prominence, above = 0) {
      at += 1
      lately = [...lately.slice(-settings.reach), prominence]
      if (start === null) {
        if (voice <= settings.beginVoice || prominence <= settings.beginProminence) return { kind: 'nothing' }
        start = at - begun()
        last = at
      } else if (
        (voice > settings.stayVoice && prominence > settings.stayProminence) ||
        (voice > settings.sureVoice && above > settings.stayAbove)
      ) {
        last = at
      }
      const segment = { start, end: last + 1 }
      if (at - last < settings.hang) return { kind: 'going-on', segment, quiet: at - last }
      start = null
      return segment.end - segment.start < settings.shortest ? { kind: 'nothing' } : { kind: 'ended', segment }
    }
  }
}
