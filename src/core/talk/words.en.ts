/** Every fixed English sentence Sidecall says or shows during a run. Another language is another file of this shape. */
import type { ReadingUnit, SignalWord, WaitKind } from '../procedure/procedure.ts'
import type { RefusalReason } from '../run/event.ts'
import type { PlainIntent } from './intent.ts'

const list = (items: readonly string[], last: 'and' | 'or') =>
  items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} ${last} ${items.at(-1) ?? ''}`

const count = (value: number, one: string, many: string) => `${value} ${value === 1 ? one : many}`

const WAITS: Readonly<Record<WaitKind, string>> = {
  agitation: 'Mixing time',
  contact: 'Contact time',
  soak: 'Soaking time',
  drain: 'Draining time',
  dry: 'Drying time',
  freeze: 'Freezing time',
  settle: 'Settling time'
}

const SIGNALS: Readonly<Record<SignalWord, string>> = {
  danger: 'Danger',
  warning: 'Warning',
  caution: 'Caution',
  notice: 'Notice'
}

const QUANTITIES: Readonly<Record<ReadingUnit, string>> = {
  '[ppm]': 'strength',
  Cel: 'temperature',
  '[degF]': 'temperature',
  '[pH]': 'pH'
}

const SAY: Readonly<Record<PlainIntent, string>> = {
  done: 'all done',
  next: 'next step',
  repeat: 'say again',
  'take-back': 'go back',
  pause: 'hold on',
  resume: 'carry on',
  'how-long': 'how long',
  'ready-when': 'ready when',
  'what-now': 'what now',
  why: 'why',
  'why-here': 'why here',
  more: 'tell me more',
  slower: 'say it slower',
  where: 'where were we',
  help: 'help',
  yes: 'yes',
  no: 'no',
  quiet: 'quiet',
  problem: 'a problem',
  corrected: 'put right',
  'new-part': 'part replaced'
}

/** Nobody keeps a longer list in mind: common practice, no source. */
const MOST_READ_OUT = 4

export const wordsEn = {
  list,
  wait: (kind: WaitKind) => WAITS[kind],
  signal: (word: SignalWord) => SIGNALS[word],
  phrase: (intent: PlainIntent) => SAY[intent],

  duration,

  /** As a person tells a time left: to ten seconds above a minute, to a minute above ten. Never less than it is. */
  timeLeft: (ms: number) => {
    const seconds = Math.ceil(ms / 1000)
    const step = seconds <= 60 ? 1 : seconds <= 600 ? 10 : 60
    return duration(Math.ceil(seconds / step) * step * 1000)
  },

  lane: (lane: string, text: string) => `${lane}. ${text}`,
  returning: (lane: string, last: string) => `${lane}. Last was: ${sentence(last)}`,
  goingOn: (headline: string) => `Now: ${headline}`,
  caution: (signal: string, hazard: string, consequence: string, avoid: string) =>
    `${signal}. ${sentence(hazard)} ${sentence(consequence)} ${sentence(avoid)}`,
  cautionHint: 'Answer yes when you understand.',
  confirmHint: (phrase: string) => `When it is so, tell me: ${phrase}. Or hold the button down.`,
  readingHint: (limits: string, source: string) => `${limits} Source: ${sentence(source)}`,
  limits: (min: number | null, max: number | null, unit: string) =>
    min !== null && max !== null
      ? `Allowed: ${min} to ${max} ${unit}.`
      : min !== null
        ? `Allowed: ${min} ${unit} or more.`
        : `Allowed: ${max ?? ''} ${unit} or less.`,
  /** The shop's rules beside the author's limits. */
  heldToHint: (titles: string) => `Also held to: ${sentence(titles)}`,
  metByRule: (lane: string, title: string) => `${lane}. Good. The strictest limit is from: ${sentence(title)}`,
  quantityIn: (unit: ReadingUnit) => QUANTITIES[unit],
  notJudged: (lane: string, title: string, missing: readonly string[]) =>
    `${lane}. Within the limits written here. Not judged by ${trimEnd(title)}: ${list(missing, 'and')} not measured.`,
  brokenRule: (measured: string, title: string, side: string, bound: string) =>
    `${measured}. ${trimEnd(title)} asks for ${side === 'below' ? 'at least' : 'at most'} ${bound}.`,
  source: (source: string) => `Source: ${sentence(source)}`,
  countHint: (expected: number) => `There should be ${expected}.`,
  pieces: (name: string, pieces: number) => `${name}: ${pieces}`,
  countedOff: (lane: string, pieces: number) => `${lane}. ${pieces} off.`,
  countedOn: (lane: string, pieces: number) => `${lane}. ${pieces} on.`,
  roundAtLeast: (lane: string, round: number, atLeast: number) => `${lane}. Round ${round}, of ${atLeast} at least.`,
  roundAtMost: (lane: string, round: number, atMost: number) => `${lane}. Round ${round}, of ${atMost} at most.`,
  roundHint: (round: number, atMost: number) => `Round ${round} of ${atMost} at most.`,

  allWaiting: (lane: string, left: string) => `Both hands are free. ${lane} needs you in ${left}.`,
  /** What comes on the lane that is free first. */
  thenThere: (lane: string, headline: string) => `Then, ${lane}: ${sentence(headline)}`,
  whileWaiting: 'Use the time to wash your hands.',
  standBy: (who: string, lane: string) => `${lane} is in the hands of ${who}. You are free until then.`,
  waitBegins: (lane: string, wait: string, length: string) => `${lane}. ${wait} begins: ${length}.`,
  alarm: (lane: string, wait: string) => `${lane}. ${wait} is over.`,
  overdue: (lane: string, wait: string, over: string) => `${lane}. ${wait} was over ${over} ago.`,
  alarmHint: 'Answer yes, press a key or touch the screen.',
  paused: 'Paused. The clocks still run.',
  resumed: 'Resumed.',
  finished: 'The run is complete. Thank you.',
  abandoned: 'The run was ended early.',
  notStarted: 'The run has not begun.',
  problemHint: `Nothing happens here until it is mended. Then tell me: ${SAY.corrected}.`,
  stopped: (lane: string) => `${lane} is stopped.`,
  problem: (lane: string, text: string) => `${lane}. Problem: ${trimEnd(text)}.`,
  entriesLost: (lane: string) => `${lane}. Part of the record is lost. Look at what really happened here.`,
  keptLast: (step: string) => `The last thing known here: ${sentence(step)}`,
  keptNothing: 'Nothing is known of what happened here.',
  lookedAfterLoss: 'Looked at it: it is as recorded.',
  broughtAfterLoss: 'Brought it to what is recorded.',
  badAnswer: (lane: string, what: string) => `${lane}. Out of limits: ${trimEnd(what)}.`,
  badYesNo: (lane: string, answer: string) => `${lane}. The answer was ${answer}, which is not good.`,
  badCount: (lane: string, counted: number, expected: number) => `${lane}. Counted: ${counted}. Expected: ${expected}.`,
  tooManyRounds: (lane: string) => `${lane}. That was the last round, and it is still not good.`,
  late: (lane: string, wait: string) => `${lane}. ${wait} took too long.`,
  lateDefault: 'Find out whether it can still be used, and mend it.',
  correctionHint: (actions: readonly string[]) =>
    `${actions.map(sentence).join(' Or: ')} Then tell me: ${SAY.corrected}.`,
  whichCorrection: (actions: readonly string[]) =>
    `What did you do? ${actions.map((action, index) => `${index + 1}. ${sentence(action)}`).join(' ')} Tell me the number.`,
  answeredYesNo: { yes: 'yes', no: 'no' },
  readBack: (value: string) => `${value}. Is that so?`,
  /** Ears that know few words are told a number in steps from here. */
  stepFrom: (value: string) => `I begin at ${value}.`,
  stepped: (value: string) => `${value}.`,
  stepHint: 'Tell me: go higher, come down, far more or much less. At the end: that is it.',
  askNumberAgain: 'What is the number?',
  implausible: (value: string) => `${value} cannot be. What is the number?`,
  needsUnit: (unit: string) => `I need it in ${unit}.`,

  takenBack: (lane: string, what: string) => `Canceled. ${lane}: ${sentence(what)}`,
  askTakeBack: (lane: string, what: string) => `${lane}. Cancel this: ${trimEnd(what)}?`,
  askFirstBack: (lane: string, headline: string) => `${lane}. ${sentence(headline)} Is that so?`,
  askDone: 'Is this step all done?',
  leftAsItWas: 'It stays as it was.',
  didYouSay: (phrase: string) => `Did you say "${phrase}"?`,
  which: (options: readonly string[]) => `Which do you mean: ${list(options, 'or')}?`,
  goTo: (lane: string) => `go to ${lane.toLowerCase()}`,
  unknown: 'I did not understand that.',
  offerHelp: 'You can also touch the screen or use the pedal.',
  time: (lane: string, wait: string, left: string) => `${lane}. ${wait}: ${left} to go.`,
  timeOver: (lane: string, wait: string) => `${lane}. ${wait} is over.`,
  notKept: {
    full: 'That was not kept: this device is full. Make room, then tell me again.',
    unavailable: 'That was not kept: this device cannot store it now. Tell me again.',
    'newer-version': 'That was not kept: a newer Sidecall is open in another tab. Reload this page.',
    corrupt: 'That was not kept: the record on this device is damaged. Call the supervisor.'
  },
  noWaits: 'All waits are over.',

  /** Four times in five; then as likely as not, and 19 times in 20. */
  readyBy: (clock: string, left: string) => `Probably ready by ${clock}, in ${left}.`,
  readySpread: (usual: string, sure: string) => `With luck at ${usual}. Almost surely by ${sure}.`,
  noPlanYet: 'I have not worked that out yet.',
  noPlan: 'I cannot plan an order here. Work on each lane as the screen shows it.',
  whyChosen: (lane: string) => `You asked for ${lane}.`,
  whyLimit: (lane: string, clock: string) => `${lane} must continue before ${clock}.`,
  whyOthersLate: (lane: string, other: string) => `${other} first, and a time limit could not be kept. So ${lane}.`,
  whySooner: (other: string, later: string) => `${other} first would end ${later} later.`,
  whyWait: (lane: string, length: string) => `${lane} then waits ${length} by itself.`,
  whyFewerChanges: 'Every order ends at the same time. This way you go to and fro less.',
  whyOnlyWork: 'Every other lane stands still now.',
  whyNotHere: 'The plan has just changed. Ask for what comes now.',
  cannotKeep: (lane: string, late: string) =>
    `One time limit cannot be kept: ${lane} will be about ${late} late. Check it before you work on it.`,

  partAt: (lane: string, part: string) => `${lane}: ${part}`,
  replacedPart: (part: string) => `Replaced: ${trimEnd(part)}`,
  whichPart: (places: readonly string[]) =>
    places.length > MOST_READ_OUT
      ? 'Which one did you put in new? Tell me its number on the screen.'
      : `Which one did you put in new? ${places.map((place, index) => `${index + 1}. ${sentence(place)}`).join(' ')} Tell me the number.`,
  allOfThem: 'All of these',
  noWearParts: 'Nothing here is counted as wearing out.',
  partReplaced: (lane: string, part: string) => `${lane}. Noted as replaced: ${sentence(part)}`,

  /** Nobody has answered a call for long. */
  stillOpen: 'This is still open.',
  lastReminder: 'Nothing is heard from you. Touch the screen when you can.',

  noReason: 'The reason is not written down.',
  noDetail: 'There is nothing further to tell.',
  help: (options: readonly string[]) => `You can say: ${list(options, 'or')}.`,
  handedOver: (name: string) => `${name} carries on from here.`,
  joined: (name: string) => `${name} works here too now.`,
  left: (name: string) => `${name} has gone.`,
  problemNoted: (lane: string) => `Noted. ${lane} is stopped. When it is mended, tell me: ${SAY.corrected}.`,
  thatStep: 'The last step',
  reportedByVoice: 'Reported by voice',
  correctedByVoice: 'Put right, told by voice',

  refusal: (
    reason: RefusalReason,
    lane: string,
    detail: { left: string; phrase: string; question: string; tool: string; others: string }
  ): string => {
    switch (reason) {
      case 'wait-not-over':
        return `Too soon. ${lane}: ${detail.left} to go.`
      case 'needs-caution':
        return 'First the caution. Answer yes when you understand.'
      case 'needs-confirmation':
        return `This one needs the whole phrase: ${detail.phrase}.`
      case 'needs-answer':
        return `This one needs an answer. ${detail.question}`
      case 'needs-correction':
        return `${lane} is stopped. First it must be put right.`
      case 'lane-at-barrier':
        return [
          `${lane} comes after the others.`,
          ...(detail.others === '' ? [] : [`First: ${sentence(detail.others)}`]),
          ...about(detail.left)
        ].join(' ')
      case 'tool-in-use':
        return [
          `${lane} needs a tool that is in use: ${sentence(detail.tool)}`,
          ...(detail.others === '' ? [] : [`It is at: ${sentence(detail.others)}`]),
          ...about(detail.left)
        ].join(' ')
      case 'lane-finished':
        return `${lane} is complete.`
      case 'paused':
        return `The run is paused. To resume, tell me: ${SAY.resume}.`
      case 'nothing-to-take-back':
        return 'Nothing has been recorded yet.'
      case 'not-asked':
        return 'Nothing was asked.'
      case 'unknown-lane':
        return 'That lane does not exist.'
      case 'wrong-kind-of-answer':
        return `That answer does not fit. ${detail.question}`
      case 'in-other-hands':
        return `${lane} is in other hands.`
      case 'only-hands':
        return 'Somebody must stay. Hand over instead.'
      case 'not-started':
        return 'The run has not begun.'
      case 'run-over':
        return 'The run is over.'
    }
  }
}

export type Words = typeof wordsEn

function about(left: string): readonly string[] {
  return left === '' ? [] : [`About ${left} to go.`]
}

function trimEnd(text: string): string {
  return text.replace(/[.!?\s]+$/, '')
}

function sentence(text: string): string {
  return /[.!?]$/.test(text.trim()) ? text.trim() : `${text.trim()}.`
}

/** Rounded up, to whole seconds below an hour and to whole minutes above, so that nothing is promised early. */
function duration(ms: number): string {
  const seconds = Math.max(0, Math.ceil(ms / 1000))
  const shown = seconds < 3600 ? seconds : Math.ceil(seconds / 60) * 60
  const parts = [
    [Math.floor(shown / 3600), 'hour', 'hours'],
    [Math.floor((shown % 3600) / 60), 'minute', 'minutes'],
    [shown % 60, 'second', 'seconds']
  ] as const
  const said = parts.filter(([value]) => value > 0).map(([value, one, many]) => count(value, one, many))
  return said.length === 0 ? '0 seconds' : said.join(' ')
}
