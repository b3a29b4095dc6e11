/** Conducts one open run: intents in, commands carried out, words and alarms out. */
import { atom, type ReadableAtom } from 'nanostores'
import { callAt, namesLaneInHand, type Call } from '../core/run/call.ts'
import type { Command } from '../core/run/command.ts'
import type { Via } from '../core/run/event.ts'
import { lateIn } from '../core/plan/outlook.ts'
import { sendTo } from '../core/plan/send-to.ts'
import { handsOf, type Hands } from '../core/run/run.ts'
import { announceDecision, announceTime, callKey } from '../core/talk/announce.ts'
import { callWords, type Manner, type Told } from '../core/talk/call-words.ts'
import {
  NEW_CONVERSATION,
  respond,
  respondToAmbiguous,
  respondToMisses,
  respondToUnknown,
  type Conversation
} from '../core/talk/conversation.ts'
import type { Response } from '../core/talk/response.ts'
import { isEcho } from '../core/talk/echo.ts'
import { expectingAt } from '../core/talk/expecting-at.ts'
import { openQuestion, type Asking } from '../core/talk/asking.ts'
import type { Intent } from '../core/talk/intent.ts'
import { lateElsewhere } from '../core/talk/late-elsewhere.ts'
import type { Line } from '../core/talk/line.ts'
import { cannotKeepWords } from '../core/talk/plan-words.ts'
import type { Talk } from '../core/talk/languages.ts'
import type { LogFailure } from '../ports/event-log.ts'
import { watchAlarms } from './alarm-watch.ts'
import type { LivePlan } from './live-plan.ts'
import { nearMisses } from './near-misses.ts'
import type { Outbox } from './outbox.ts'
import type { Ports } from './ports.ts'
import type { RunSession } from './run-session.ts'
import type { Speaker } from './speaker.ts'
import type { TimeKeeper } from './time-keeper.ts'
import { openTranscript, type Transcript } from './transcript.ts'

const TICK_MS = 250
const MARK_EVERY_TICKS = 20
/** After a step, so that the answer surely comes later than what the step was stamped with. */
const SOON_MS = 50
/** No call is said again sooner. */
const QUIET_MS = 90_000
const FIRST_PLAN_MS = 300

export interface Trouble {
  readonly reason: LogFailure
  readonly detail: string
}

export interface Conductor {
  readonly $now: ReadableAtom<number>
  readonly $call: ReadableAtom<Call>
  readonly $asking: ReadableAtom<Asking | null>
  readonly $transcript: Transcript['$lines']
  /** The device could not keep the last thing; cleared by the next that is kept. */
  readonly $trouble: ReadableAtom<Trouble | null>
  intend(intent: Intent, via: Via): Promise<void>
  /** Words as heard or typed; best alternative first. */
  hearWords(alternatives: readonly string[], via: 'voice' | 'typed', isUnsure?: boolean): Promise<void>
  /** Somebody was almost understood; these phrases come closest. */
  almostHeard(closest: readonly string[]): Promise<void>
  carryOut(command: Command, via: Via): Promise<void>
  /** Starts the watch and says what matters now. */
  open(): void
  /** Says what matters now once more, without answering anything. */
  sayNow(): void
  /** Another tab or device may have moved the run on. */
  refresh(): Promise<void>
  close(): void
}

export interface ConductorParts {
  readonly session: RunSession
  readonly speaker: Speaker
  readonly time: TimeKeeper
  readonly outbox: Outbox
  readonly plan: LivePlan
  readonly manner: () => Manner
  readonly talk: () => Pick<Talk, 'vocabulary' | 'hear'>
  /** This tab is the one that speaks and listens. */
  readonly hasVoice: () => boolean
}

export function conduct(ports: Pick<Ports, 'clock' | 'alarm' | 'waker' | 'ears'>, parts: ConductorParts): Conductor {
  const { session, speaker, time, outbox, plan, talk } = parts
  const course = session.$state.get().course
  const { device } = session
  const told = (): Told => ({
    course,
    run: session.$state.get().run,
    at: time.now(),
    manner: parts.manner(),
    device,
    outlook: plan.$outlook.get()
  })
  const callNow = (): Call => callAt(course, session.$state.get().run, time.now(), device)
  const $now = atom(time.now())
  const $call = atom<Call>(callNow())
  const $asking = atom<Asking | null>(null)
  const transcript = openTranscript(ports, { session, speaker, now: time.now, kept: () => void outbox.flush() })
  const $trouble = atom<Trouble | null>(null)
  let conversation: Conversation = NEW_CONVERSATION
  let announced: Call = $call.get()
  /** The operator's last sign, or the last change of what is called; and the reminders given since. */
  let quietSince = time.now()
  let reminded = 0
  const misses = nearMisses(ports.clock)
  let cancelTick = () => {}
  let ticks = 0
  let closed = false
  /** Intents are taken one after the other: a second press must see what the first one did. */
  let working: Promise<void> = Promise.resolve()

  const alarms = watchAlarms(ports, speaker, {
    device,
    now: time.now,
    wake: look,
    speak: () => say(callWords(told(), callNow(), false).lines)
  })

  function say(lines: readonly Line[]): void {
    if (lines.length === 0) return
    conversation = { ...conversation, said: lines }
    for (const line of lines) transcript.shown(line.text)
    if (parts.hasVoice()) speaker.say(lines)
  }

  /** Looks at run and time afresh; says what time alone has changed. */
  function look(): void {
    const { run } = session.$state.get()
    const at = time.now()
    $now.set(at)
    const call = callAt(course, run, at, device)
    sayLate(call)
    // Which ears listen is known only after a while.
    expectWords()
    if (callKey(call) === callKey(announced)) {
      if (parts.hasVoice() && at - quietSince >= QUIET_MS) void remind()
      return
    }
    noticed()
    // Where the hands are sent is part of the log: a reload or another device must not send them elsewhere.
    // Two devices can reach the end together; one of them then has to say that it is the end.
    if (isElsewhere(call, handsOf(run, device)) || (call.kind === 'finished' && run.status === 'running'))
      void inTurn(callHands)
    // The alarm's words are spoken by the alarm itself, after its tone.
    const lines = call.kind === 'alarm' ? [] : announceTime(announced, told())
    nowCalled(call)
    // Time can catch up all at once, past moments that the alarm's own timers were set for.
    if (call.kind === 'alarm') alarms.reset(run)
    say(lines)
  }

  const toldLate = new Set<string>()
  function sayLate(call: Call): void {
    const late = lateElsewhere(told(), call).filter(({ key }) => !toldLate.has(key))
    for (const { key } of late) toldLate.add(key)
    say(late.map(({ line }) => line))
  }

  /** Hands that come back are not asked again what they were asked long ago. */
  function nowCalled(call: Call): void {
    announced = call
    $call.set(call)
    ask(openQuestion(conversation.asking, call))
  }

  function ask(asking: Asking | null): void {
    conversation = { ...conversation, asking }
    $asking.set(asking)
    expectWords()
  }

  /** Ears with a small memory listen only for what means something now. */
  function expectWords(): void {
    ports.ears.expect(parts.manner().fewWords?.phrasesNow(announced, expecting(), talk().vocabulary) ?? null)
  }

  function noticed(): void {
    quietSince = time.now()
    reminded = 0
  }

  /** Loaded when somebody has been quiet for long. */
  async function remind(): Promise<void> {
    const { reminderAfter, reminderLines } = await import('../core/talk/reminders.ts')
    const due = reminderAfter(announced, reminded)
    if (closed || due === null || time.now() - quietSince < due) return
    say(reminderLines(told(), announced, reminded))
    reminded += 1
  }

  function callHands(): Promise<void> {
    return carryOut({ type: 'call-hands' }, 'app')
  }

  function sayNow(): void {
    if (announced.kind !== 'alarm') say(callWords(told(), announced, true).lines)
  }

  function settle(): void {
    const { run } = session.$state.get()
    $now.set(time.now())
    nowCalled(callNow())
    alarms.reset(run)
  }

  async function carryOut(command: Command, via: Via): Promise<void> {
    noticed()
    const performed = await session.perform(command, via, plan.order())
    if (performed.kind === 'not-kept') {
      $trouble.set({ reason: performed.reason, detail: performed.detail })
      say([{ priority: 'answer', text: parts.manner().words.notKept[performed.reason], lane: null }])
      return
    }
    $trouble.set(null)
    const lines = announceDecision(performed.before, command, performed.decision, told())
    settle()
    // Where hands are only put down as called there is nothing new, and the call may just be being said.
    if (command.type !== 'call-hands' || lines.length > 0)
      speaker.hush(announced.kind === 'alarm' ? 'caution' : 'alarm')
    say(announced.kind === 'alarm' ? lines.filter((line) => line.priority !== 'alarm') : lines)
    void outbox.flush()
    // An answer soon after a wait began lets a sleep later on count for it.
    if (performed.decision.events.some(({ type }) => type === 'step-done' || type === 'check-answered'))
      ports.clock.after(SOON_MS, () => void time.askServer())
  }

  async function follow(response: Response, via: Via): Promise<void> {
    noticed()
    if (response.hush || response.lines.length > 0) speaker.hush('caution')
    ask(response.asking)
    say(response.lines)
    for (const command of response.commands) await carryOut(command, via)
  }

  function inTurn(work: () => Promise<void>): Promise<void> {
    working = working.then(work, work)
    return working
  }

  const expecting = () => expectingAt(callNow(), conversation.asking, told())

  async function onWords(alternatives: readonly string[], via: 'voice' | 'typed', isUnsure: boolean): Promise<void> {
    const said = speaker.lately()
    const own = via === 'voice' ? alternatives.filter((words) => !isEcho(words, said)) : alternatives
    if (own.length === 0) return
    const { hear, vocabulary } = talk()
    const hearing = hear(own, vocabulary, expecting())
    transcript.heard(hearing.words, hearing.kind !== 'unknown')
    if (hearing.kind === 'unknown') {
      const response = respondToUnknown(conversation, told())
      conversation = { ...conversation, misses: conversation.misses + 1 }
      return follow(response, via)
    }
    // A step of a number that was none is mended by the next, and nothing counts before it was read back.
    if (isUnsure && hearing.kind === 'meant' && hearing.intent.type !== 'number-step') {
      const { fewWords } = parts.manner()
      const question = fewWords?.respondToUnsure(conversation, hearing.intent, told())
      return follow(question ?? respondToUnknown(conversation, told()), via)
    }
    conversation = { ...conversation, misses: 0 }
    misses.end()
    return hearing.kind === 'meant'
      ? follow(respond(conversation, hearing.intent, told()), via)
      : follow(respondToAmbiguous(hearing.between, told()), via)
  }

  async function onAlmost(closest: readonly string[]): Promise<void> {
    if (announced.kind === 'alarm' || !misses.isTimeToOffer(callKey(announced))) return
    return follow(respondToMisses(conversation, closest, told()), 'voice')
  }

  /** A new plan has come: what it cannot keep is said once, and hands that a limit needs elsewhere are called there. */
  let warned: string | null = null
  const stopPlan = plan.$outlook.listen((outlook) => {
    const late = outlook && lateIn(outlook)
    const key = late && `${late.lane} ${late.step} ${late.round}`
    if (key !== null && key !== warned)
      say(cannotKeepWords(told()).map((text) => ({ priority: 'answer', text, lane: late?.lane ?? null })))
    warned = key
    const { run } = session.$state.get()
    const sent = sendTo(course, run, time.now(), device, plan.order())
    if (run.status === 'running' && sent.kind === 'hands' && sent.lane !== handsOf(run, device).focus)
      void inTurn(callHands)
  })

  const stopMoved = time.onMoved((byMs) => {
    alarms.reset(session.$state.get().run)
    void session.note({ type: 'clock-moved', byMs })
  })

  function tick(): void {
    cancelTick = ports.clock.after(TICK_MS, () => {
      look()
      plan.look()
      ticks += 1
      if (ticks % MARK_EVERY_TICKS === 0) void time.mark()
      tick()
    })
  }

  return {
    $now,
    $call,
    $asking,
    $transcript: transcript.$lines,
    $trouble,
    intend: (intent, via) => inTurn(() => follow(respond(conversation, intent, told()), via)),
    hearWords: (alternatives, via, isUnsure = false) => inTurn(() => onWords(alternatives, via, isUnsure)),
    almostHeard: (closest) => inTurn(() => onAlmost(closest)),
    carryOut: (command, via) => inTurn(() => carryOut(command, via)),
    open() {
      settle()
      tick()
      void inTurn(async () => {
        // The first call is worth a moment: a plan made later would not turn the hands round.
        await Promise.race([plan.settled(), after(ports.clock, FIRST_PLAN_MS)])
        if (isElsewhere(announced, handsOf(session.$state.get().run, device))) await callHands()
        sayNow()
      })
    },
    sayNow,
    refresh: () =>
      inTurn(async () => {
        if (!(await session.refresh())) return
        look()
        alarms.reset(session.$state.get().run)
      }),
    close() {
      closed = true
      cancelTick()
      stopPlan()
      stopMoved()
      alarms.stop()
      transcript.stop()
      speaker.hush('alarm')
    }
  }
}

function after(clock: Ports['clock'], ms: number): Promise<void> {
  return new Promise((over) => void clock.after(ms, over))
}

function isElsewhere(call: Call, hands: Hands): boolean {
  return call.kind !== 'alarm' && namesLaneInHand(call) && call.lane !== hands.focus
}
