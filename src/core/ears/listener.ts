/** From a stream of samples to what was said. The page's worker and the evaluation run this very code. */
import { isolation } from './isolation.ts'
import {
  candidates,
  certaintyOf,
  inTalk,
  MOST_LENGTH,
  THRESHOLDS,
  type Candidate,
  type Certainty,
  type Thresholds
} from './judge-utterance.ts'
import type { EarModels } from './models.ts'
import type { Phrasebook } from './phrasebook.ts'
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

const scoreOf = ({ candidates: [best] }: Judgement) => best?.score ?? -Infinity

interface Judged {
  readonly certainty: Certainty
  readonly finding: Finding
}

export interface Listener {
  /** Samples at 16 kHz in any portions; to be called again only when the last answer has come. */
  push(samples: Float32Array): Promise<readonly Finding[]>
  /** What may be said from now on. */
  listenFor(valid: Phrasebook): void
}

/** What is longer, and longer than any valid phrase, is talk and not a phrase that nobody knows. */
const USUAL_FRAMES = 1600 / FRAME_MS
/** A phrase that is certain need not wait for the end of the silence behind it. */
const EARLY_FRAMES = 120 / FRAME_MS

export function listener(models: EarModels, thresholds: Thresholds = THRESHOLDS): Listener {
  const finder = utteranceFinder(models)
  const talk = isolation()
  let valid: Phrasebook = []
  let told: number | null = null
  let looked: (Segment & { readonly valid: Phrasebook; readonly judgement: Judgement }) | null = null

  /** Nothing was said since the early look at most utterances: then that look still holds. */
  async function judgementOf(segment: Segment, utterance: Utterance, isWhole: boolean): Promise<Judgement> {
    const isKnown = looked?.start === segment.start && looked.end === segment.end && looked.valid === valid
    if (isWhole && looked && isKnown) return looked.judgement
    const cuts = sketchesAround(await models.embed(clipOf(utterance)))
    const judgement = { utterance, candidates: candidates(cuts, framesIn(utterance), valid) }
    if (isWhole) looked = { ...segment, valid, judgement }
    return judgement
  }

  /** Looking at the loud part as well costs as much again: only the last word is worth it. */
  async function judged(segment: Segment, whole: Utterance, when: 'early' | 'late'): Promise<Judged | null> {
    const longest = Math.max(USUAL_FRAMES, ...valid.map((phrase) => MOST_LENGTH * phrase.frames))
    const isAlone = talk.alone({ ...segment, power: loudness(whole.speech) })
    if (when === 'early' && !isAlone) return null
    const asked = isAlone ? thresholds : inTalk(thresholds)
    let best: Judgement | null = null
    for (const utterance of [whole, when === 'late' ? loudPart(whole) : null]) {
      if (!utterance || framesIn(utterance) > longest) continue
      const judgement = await judgementOf(segment, utterance, utterance === whole)
      if (!best || scoreOf(judgement) > scoreOf(best)) best = judgement
      const certainty = certaintyOf(judgement.candidates[0], asked)
      if (certainty === 'early' || certainty === 'sure') break
    }
    if (!best) return null
    const certainty = certaintyOf(best.candidates[0], asked)
    // Chatter is neither asked about nor counted as something that was not understood.
    if (!isAlone && certainty !== 'sure' && certainty !== 'early') return null
    return { certainty, finding: { kind: certainty === 'early' ? 'sure' : certainty, segment, ...best } }
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
    // What is too long to be kept is talk, however loud it was.
    talk.note({ ...segment, power: whole ? loudness(whole.speech) : Infinity })
    return late?.finding ?? null
  }

  return {
    async push(samples) {
      const findings: Finding[] = []
      await finder.push(samples, async (hearing) => {
        const finding = await findingOf(hearing)
        if (finding) findings.push(finding)
      })
      return findings
    },
    listenFor(book) {
      valid = book
    }
  }
}
