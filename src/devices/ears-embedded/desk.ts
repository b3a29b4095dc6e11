/** The work of the ears' worker: keeps models and phrases, takes samples, tells what was found. */
import { candidates, THRESHOLDS } from '../../core/ears/judge-utterance.ts'
import { listener, type Listener, type Speaker } from '../../core/ears/listener.ts'
import type { EarModels } from '../../core/ears/models.ts'
import { unpacked } from '../../core/ears/packed-embeddings.ts'
import { phrasebookOf, type OtherSpeech, type Phrasebook, type Takes } from '../../core/ears/phrasebook.ts'
import { practice, type HeardTake, type Practice } from '../../core/ears/practice.ts'
import { sketchesAround } from '../../core/ears/sketch.ts'
import { unpackedPhrases } from '../../core/ears/starting-phrases.ts'
import { clipOf, framesIn } from '../../core/ears/utterance.ts'
import type { EarFiles, FromDesk, ToDesk } from './desk-messages.ts'

/** So far from other speech that the ears may learn from it. */
const CERTAIN = 4.8

export interface Desk {
  /** Messages are worked on one after another. */
  take(message: ToDesk): void
}

interface Prepared {
  readonly models: EarModels
  readonly others: OtherSpeech
  readonly starting: Phrasebook
}

export function desk(load: (files: EarFiles) => Promise<EarModels>, post: (message: FromDesk) => void): Desk {
  let prepared: Prepared | null = null
  let practised: Phrasebook = []
  let words: readonly string[] | null = null
  let speaker: Speaker = 'anybody'
  let ears: Listener | null = null
  let practising: { readonly words: string; readonly take: Practice } | null = null
  let working: Promise<void> = Promise.resolve()

  /** What was practised counts in place of what comes with the page. */
  function known(): Phrasebook {
    const own = new Set(practised.map((phrase) => phrase.words))
    return [...practised, ...(prepared?.starting ?? []).filter((phrase) => !own.has(phrase.words))]
  }
  function valid(): Phrasebook {
    return words === null ? known() : known().filter((phrase) => words?.includes(phrase.words))
  }

  async function prepare(files: EarFiles): Promise<void> {
    const models = await load(files)
    prepared = { models, others: unpacked(files.otherSpeech), starting: unpackedPhrases(files.startingPhrases) }
    post({ kind: 'prepared' })
  }

  async function learn({ models, others }: Prepared, takes: readonly Takes[]): Promise<void> {
    practised = await phrasebookOf(takes, models, others)
    ears?.listenFor(valid(), speaker)
  }

  function begin({ models }: Prepared, practisingWords: string | null): void {
    models.forgetVoice()
    ears = practisingWords === null ? listener(models) : null
    ears?.listenFor(valid(), speaker)
    practising = practisingWords === null ? null : { words: practisingWords, take: practice(models) }
  }

  async function hear({ models }: Prepared, samples: Float32Array): Promise<void> {
    post({ kind: 'level', peak: samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0) })
    for (const { kind, candidates: found, utterance } of (await ears?.push(samples)) ?? []) {
      const certain = kind === 'sure' && (found[0]?.score ?? 0) >= CERTAIN ? utterance : null
      post({ kind: 'found', how: kind, candidates: found, certain })
    }
    const take = await practising?.take.push(samples)
    if (take) post({ kind: 'take', take, soundsLike: await otherLike(models, take) })
  }

  /** A phrase of the operator's own, other than the one being practised, that would be heard instead. */
  async function otherLike(models: EarModels, { utterance }: HeardTake): Promise<string | null> {
    const others = practised.filter((phrase) => phrase.words !== practising?.words)
    const cuts = sketchesAround(await models.embed(clipOf(utterance)))
    const [closest] = candidates(cuts, framesIn(utterance), others)
    return closest && closest.score >= THRESHOLDS.accept ? closest.words : null
  }

  async function work(message: ToDesk): Promise<void> {
    if (message.kind === 'prepare') return prepare(message.files)
    if (message.kind === 'listen-for') {
      words = message.words
      speaker = message.speaker
      ears?.listenFor(valid(), speaker)
      return
    }
    if (!prepared) throw new Error('The ears were asked before they were prepared.')
    switch (message.kind) {
      case 'practised':
        return learn(prepared, message.takes)
      case 'begin':
        return begin(prepared, message.practising)
      case 'samples':
        return hear(prepared, message.samples)
    }
  }

  return {
    take(message) {
      working = working
        .then(() => work(message))
        .catch((failure: unknown) => post({ kind: 'broken', message: String(failure) }))
    }
  }
}
