/** The program's own sentences, with OPEN where something is only known when it is said. Those that name a lane in their midst sound better with it, so they stand here. */
import { WAIT_KINDS, SIGNAL_WORDS } from '../../procedure/procedure.ts'
import type { RefusalReason } from '../../run/event.ts'
import { PLAIN_INTENTS } from '../intent.ts'
import type { Words } from '../words.en.ts'
import { openSentences } from './open-sentences.ts'

/** Where a text is cut. No word of any language, and left alone when figures are written out. */
export const OPEN = '§'
const OPEN_NUMBER = Number.NaN

/** Each of them; the compiler sees to it that none is missing. */
const REASONS: Readonly<Record<RefusalReason, true>> = {
  'wait-not-over': true,
  'needs-caution': true,
  'needs-confirmation': true,
  'needs-answer': true,
  'needs-correction': true,
  'lane-at-barrier': true,
  'tool-in-use': true,
  'lane-finished': true,
  paused: true,
  'nothing-to-take-back': true,
  'not-asked': true,
  'unknown-lane': true,
  'wrong-kind-of-answer': true,
  'in-other-hands': true,
  'only-hands': true,
  'not-started': true,
  'run-over': true
}

/** `lanes` and `titles` (of rule sets and labels) as they are written. */
export function fixedPhrases(words: Words, lanes: readonly string[], titles: readonly string[]): readonly string[] {
  return [
    ...openSentences(words, OPEN),
    ...WAIT_KINDS.flatMap((kind) => aboutWaits(words, words.wait(kind))),
    ...SIGNAL_WORDS.map((signal) => words.signal(signal)),
    ...PLAIN_INTENTS.map((intent) => words.phrase(intent)),
    ...lanes.flatMap((lane) => aboutLane(words, lane)),
    ...(Object.keys(REASONS) as RefusalReason[]).flatMap((reason) =>
      (lanes.length > 0 ? lanes : ['']).map((lane) =>
        words.refusal(reason, lane, { left: OPEN, phrase: OPEN, question: OPEN, tool: OPEN, others: OPEN })
      )
    ),
    ...titles.flatMap((title) => [
      words.metByRule(OPEN, title),
      ...['below', 'above'].map((side) => words.brokenRule(OPEN, title, side, OPEN))
    ])
  ].map((phrase) => phrase.replaceAll(String(OPEN_NUMBER), OPEN))
}

function aboutWaits(words: Words, wait: string): readonly string[] {
  return [
    words.waitBegins(OPEN, wait, OPEN),
    words.alarm(OPEN, wait),
    words.overdue(OPEN, wait, OPEN),
    words.late(OPEN, wait),
    words.time(OPEN, wait, OPEN),
    words.timeOver(OPEN, wait)
  ]
}

function aboutLane(words: Words, lane: string): readonly string[] {
  return [
    words.allWaiting(lane, OPEN),
    words.standBy(OPEN, lane),
    words.thenThere(lane, OPEN),
    words.stopped(lane),
    words.problem(lane, OPEN),
    words.entriesLost(lane),
    words.badAnswer(lane, OPEN),
    ...Object.values(words.answeredYesNo).map((answer) => words.badYesNo(lane, answer)),
    words.badCount(lane, OPEN_NUMBER, OPEN_NUMBER),
    words.tooManyRounds(lane),
    words.countedOff(lane, OPEN_NUMBER),
    words.countedOn(lane, OPEN_NUMBER),
    words.roundAtLeast(lane, OPEN_NUMBER, OPEN_NUMBER),
    words.roundAtMost(lane, OPEN_NUMBER, OPEN_NUMBER),
    words.problemNoted(lane),
    words.goTo(lane),
    words.whyChosen(lane),
    words.whyLimit(lane, OPEN),
    words.whyOthersLate(OPEN, lane),
    words.whyOthersLate(lane, OPEN),
    words.whySooner(lane, OPEN),
    words.whyWait(lane, OPEN),
    words.cannotKeep(lane, OPEN)
  ]
}
