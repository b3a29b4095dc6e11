/** The program's own sentences, with each lane's name in them and OPEN where something is only known when it is said. */
import { WAIT_KINDS, SIGNAL_WORDS } from '../../procedure/procedure.ts'
import type { RefusalReason } from '../../run/event.ts'
import { PLAIN_INTENTS } from '../intent.ts'
import type { Words } from '../words.en.ts'

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
    ...alone(words),
    ...WAIT_KINDS.flatMap((kind) => aboutWaits(words, words.wait(kind))),
    ...SIGNAL_WORDS.map((signal) => words.signal(signal)),
    ...PLAIN_INTENTS.map((intent) => words.phrase(intent)),
    ...lanes.flatMap((lane) => aboutLane(words, lane)),
    ...(Object.keys(REASONS) as RefusalReason[]).flatMap((reason) =>
      (lanes.length > 0 ? lanes : ['']).map((lane) =>
        words.refusal(reason, lane, { left: OPEN, phrase: OPEN, question: OPEN })
      )
    ),
    ...titles.flatMap((title) => [
      words.metByRule(OPEN, title),
      ...['below', 'above'].map((side) => words.brokenRule(OPEN, title, side, OPEN))
    ])
  ].map((phrase) => phrase.replaceAll(String(OPEN_NUMBER), OPEN))
}

function alone(words: Words): readonly string[] {
  return [
    words.notStarted,
    words.paused,
    words.resumed,
    words.finished,
    words.abandoned,
    words.cautionHint,
    words.alarmHint,
    words.problemHint,
    words.keptNothing,
    words.lookedAfterLoss,
    words.broughtAfterLoss,
    words.lateDefault,
    words.noWaits,
    words.noPlanYet,
    words.noPlan,
    words.whyFewerChanges,
    words.whyOnlyWork,
    words.whyNotHere,
    words.noReason,
    words.noDetail,
    words.askNumberAgain,
    words.askDone,
    words.leftAsItWas,
    words.unknown,
    words.offerHelp,
    words.thatStep,
    words.reportedByVoice,
    words.correctedByVoice,
    ...Object.values(words.notKept),
    ...Object.values(words.answeredYesNo),
    words.returning(OPEN, OPEN),
    words.goingOn(OPEN),
    words.confirmHint(OPEN),
    words.keptLast(OPEN),
    words.correctionHint([OPEN, OPEN]),
    words.whichCorrection([OPEN]),
    words.readBack(OPEN),
    words.implausible(OPEN),
    words.needsUnit(OPEN),
    words.takenBack(OPEN, OPEN),
    words.askTakeBack(OPEN, OPEN),
    words.askFirstBack(OPEN, OPEN),
    words.which([OPEN, OPEN]),
    words.help([OPEN, OPEN]),
    words.readyBy(OPEN, OPEN),
    words.readySpread(OPEN, OPEN)
  ]
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
