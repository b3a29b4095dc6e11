/** From a stream of samples to what was said. The page's worker and the evaluation run this very code. */
import { isolation } from './isolation.ts'
import { joined } from './joined.ts'
import {
  CALLED,
  CALLING,
  candidates,
  certaintyOf,
  inParts,
  inTalk,
  MOST_LENGTH,
  THRESHOLDS,
  type Candidate,
  type Certainty,
  type Thresholds
} from './judge-utterance.ts'
import type { EarModels } from './models.ts'
import { nearPart } from './near-part.ts'
import { lengthsOf, type Phrasebook } from './phrasebook.ts'
import type { Hearing, Segment } from './segmenter.ts'
import { sketchesAround } from './sketch.ts'
import { FRAME_MS } from './sound.ts'
import { utteranceFinder } from './utterance-finder.ts'
import { clipOf, framesIn, loudness, loudPart, type Utterance } from './utterance.ts'

interface Judgement {
  readonly utterance: Utterance
  /** Best first. */
  readonly candidates: readonly Candidate[]
}

interface Found extends Judgement {
  /** Frames of 10 ms since the stream began. */
  readonly segment: Segment
}

export type Finding =
  /** To be acted on. */
  | ({ readonly kind: 'sure' } & Found)
  /** To be asked about. */
  | ({ readonly kind: 'unsure' } & Found)
  /** Somebody said something short, on its own, that is no valid phrase. */
  | ({ readonly kind: 'unknown' } & Found)

const isSure = (certainty: Certainty) => certainty === 'early' || certainty === 'sure'
const scoreOf = ({ candidates: [best] }: Judgement) => best?.score ?? -Infinity

/** What may have been said, from where to where, and how certain it has to be there. */
interface Way {
  readonly segment: Segment
  readonly utterance: Utterance
  readonly isAlone: boolean
  readonly asked: Thresholds
  readonly phrases: Phrasebook
}

interface Judged {
  readonly certainty: Certainty
  readonly finding: Finding
}

/**
 * Whose words count: of anybody, of whoever says the attention word, which takes less certainty, or, with still less, of
 * the operator who has just been heard.
 */
export type Speaker = 'anybody' | 'whoever-calls' | 'caller'

export interface Listener {
  /** Samples at 16 kHz in any portions; to be called again only when the last answer has come. */
  push(samples: Float32Array): Promise<readonly Finding[]>
  /** What may be said from now on, and by whom. */
  listenFor(valid: Phrasebook, speaker: Speaker): void
}

/** What is longer, and longer than any valid phrase, is talk and not a phrase that nobody knows. */
const USUAL_FRAMES = 1600 / FRAME_MS
/** A phrase that is certain need not wait for the end of the silence behind it. */
const EARLY_FRAMES = 120 / FRAME_MS
/** Times the power (5 dB): whoever is that much quieter than the caller is somebody else. */
const AS_NEAR = 10 ** 0.5

export function listener(models: EarModels, thresholds: Thresholds = THRESHOLDS): Listener {
  const finder = utteranceFinder(models)
  const talk = isolation()
  let valid: Phrasebook = []
  let speaker: Speaker = 'anybody'
  /** How loud the last one was who was heard while anybody might be. */
  let callerPower = Infinity
  let told: number | null = null
  /** The last one that ended, while it may be the first part of a phrase. */
  let before: Segment | null = null
  let looked: (Segment & { readonly valid: Phrasebook; readonly judgement: Judgement }) | null = null

  /** Nothing was said since the early look at most utterances: then that look still holds. */
  async function judgementOf({ segment, utterance, phrases }: Way, isWhole: boolean): Promise<Judgement> {
    const isKnown = looked?.start === segment.start && looked.end === segment.end && looked.valid === valid
    if (isWhole && looked && isKnown) return looked.judgement
    const cuts = sketchesAround(await models.embed(clipOf(utterance)))
    const judgement = { utterance, candidates: candidates(cuts, framesIn(utterance), phrases) }
    if (isWhole) looked = { ...segment, valid, judgement }
    return judgement
  }

  /** Most likely first. Each costs a look of the embedding: only the last word is worth more than one. */
  function waysOf(segment: Segment, whole: Utterance, when: 'early' | 'late'): readonly Way[] {
    const way = (utterance: Utterance, power: number, from = segment): Way => {
      const isAlone = talk.alone({ ...from, power })
      const least = speaker === 'whoever-calls' ? CALLING : thresholds
      const usual = isAlone ? least : inTalk(least)
      const isCaller = speaker === 'caller' && power * AS_NEAR >= callerPower
      return { segment: from, utterance, isAlone, asked: isCaller ? CALLED : usual, phrases: valid }
    }
    const first = way(whole, loudness(whole.speech))
    if (when === 'early') return first.isAlone ? [first] : []
    const loud = loudPart(whole)
    const near = lengthsOf(valid).flatMap(({ frames, phrases }) => {
      const part = nearPart(whole, frames)
      return part ? [{ ...way(part, loudness(part.speech)), phrases }] : []
    })
    const both = joined(before, segment)
    const parts = both && finder.utterance(both)
    const together = both && parts ? way(parts, loudness(parts.speech), both) : null
    return [
      first,
      ...(loud ? [{ ...first, utterance: loud }] : []),
      ...near,
      ...(together ? [{ ...together, asked: inParts(together.asked) }] : [])
    ]
  }

  async function judged(segment: Segment, whole: Utterance, when: 'early' | 'late'): Promise<Judged | null> {
    const longest = Math.max(USUAL_FRAMES, ...valid.map((phrase) => MOST_LENGTH * phrase.frames))
    let best: (Judgement & { readonly way: Way }) | null = null
    for (const way of waysOf(segment, whole, when)) {
      if (framesIn(way.utterance) > longest) continue
      const judgement = await judgementOf(way, way.utterance === whole)
      const isCertain = isSure(certaintyOf(judgement.candidates[0], way.asked))
      if (!best || isCertain || scoreOf(judgement) > scoreOf(best)) best = { ...judgement, way }
      if (isCertain) break
    }
    if (!best) return null
    const { way, ...judgement } = best
    const certainty = certaintyOf(judgement.candidates[0], way.asked)
    // Chatter is neither asked about nor counted as something that was not understood.
    if (!way.isAlone && !isSure(certainty)) return null
    return {
      certainty,
      finding: { kind: certainty === 'early' ? 'sure' : certainty, segment: way.segment, ...judgement }
    }
  }

  async function findingOf(hearing: Hearing): Promise<Finding | null> {
    if (hearing.kind === 'nothing') return null
    const { segment } = hearing
    const known = told === segment.start
    if (hearing.kind === 'going-on') {
      const whole = known || hearing.quiet !== EARLY_FRAMES ? null : finder.utterance(segment)
      const early = whole && (await judged(segment, whole, 'early'))
      if (early?.certainty !== 'early') return null
      told = segment.start
      return early.finding
    }
    const whole = finder.utterance(segment)
    const late = whole && !known ? await judged(segment, whole, 'late') : null
    // What belonged to a phrase is no part of another.
    before = known || late?.finding.kind === 'sure' ? null : segment
    // What is too long to be kept is talk, however loud it was.
    talk.note({ ...segment, power: whole ? loudness(whole.speech) : Infinity })
    return late?.finding ?? null
  }

  return {
    async push(samples) {
      const findings: Finding[] = []
      await finder.push(samples, async (hearing) => {
        const finding = await findingOf(hearing)
        if (!finding) return
        if (finding.kind === 'sure' && speaker !== 'caller') callerPower = loudness(finding.utterance.speech)
        findings.push(finding)
      })
      return findings
    },
    listenFor(book, by) {
      valid = book
      speaker = by
    }
  }
}
