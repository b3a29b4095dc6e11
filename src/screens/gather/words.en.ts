/** English texts of the screen that gathers; fetched with it. */
import type { Part } from '../../core/procedure/procedure.ts'
import type { SoundCheckState } from '../../app/sound-check.ts'
import { count } from '../count.ts'

const CARE: Readonly<Record<Part['care'], string>> = { grease: 'Grease', dry: 'Keep dry', clean: 'Neither' }

type DeafReason = Extract<SoundCheckState, { readonly kind: 'deaf' }>['reason']
const DEAF: Readonly<Record<DeafReason, string>> = {
  unsupported: 'this browser cannot listen',
  denied: 'this page may not use the microphone',
  'no-engine': 'nothing here turns speech into words',
  'no-microphone': 'there is no microphone',
  'not-answering': 'the microphone gives no sign',
  'other-tab': 'another tab has the microphone',
  'language-missing': 'the language is not installed'
}

function checked(state: SoundCheckState): string {
  switch (state.kind) {
    case 'not-begun':
      return 'It speaks, listens, and says what it heard.'
    case 'speaking':
      return 'Listen.'
    case 'listening':
      return 'Count to three.'
    case 'heard':
      return `It heard: ${state.words}`
    case 'nothing-heard':
      return 'Nothing was heard. Come closer, or look at the microphone. Touch and pedal work without it.'
    case 'mute':
      return 'It cannot speak here. Everything it says is on the screen, with a tone.'
    case 'deaf':
      return `It cannot hear: ${DEAF[state.reason]}. Touch and pedal work without it.`
  }
}

export const gatherWordsEn = {
  title: 'Gather',
  supplies: 'Supplies',
  solutions: 'Solutions',
  parts: 'Parts',
  tools: 'Shared tools',
  wornTitle: 'Worn parts',
  wornNow: (place: string) => `${place}: replace it in this run.`,
  wornSoon: (place: string) => `${place}: soon worn. Have a new one ready.`,
  wornAge: (days: number, runs: number, isKnown: boolean) =>
    isKnown
      ? `New ${count(days, 'day', 'days')} ago, ${count(runs, 'run', 'runs')} since.`
      : `${count(runs, 'run', 'runs')} in ${count(days, 'day', 'days')} on record; older than that.`,
  wornSay: 'When the new one is in, tell Sidecall "part replaced", or touch Part replaced among the other things.',
  none: 'None listed.',
  perSide: 'for each side',
  care: (care: Part['care']) => CARE[care],
  pieces: (value: number) => `${value} ×`,
  who: 'Who is doing it?',
  whoMissing: 'Write your name first: the record says who did it.',
  telling: 'How much should be said?',
  tellingBrief: 'Headlines',
  tellingFull: 'Everything',
  soundCheck: { begin: 'Sound check', state: checked },
  start: 'Start',
  voiceWhole: 'The whole voice is on this device.',
  voicePart: (have: number, total: number) =>
    `The voice is on its way: ${have} of ${total} pieces. You can start: what is missing is said by the device itself.`,
  plan: 'The plan',
  planning: 'Working out the order.',
  planFault: 'No order can be planned: call the supervisor.',
  takes: (ms: number) => `About ${count(Math.max(1, Math.round(ms / 60_000)), 'minute', 'minutes')} for all of it.`,
  saves: (ms: number) => `${count(Math.round(ms / 60_000), 'minute', 'minutes')} less than one side after the other.`,
  savesNothing: 'One side after the other takes as long.',
  spread: (likely: number, sure: number) =>
    `Four times in five within ${Math.ceil(likely / 60_000)}, almost surely within ${Math.ceil(sure / 60_000)}.`,
  estimated: 'Estimated from the times that the author wrote down.',
  learned: (runs: number) => `Learned from ${count(runs, 'run', 'runs')} before.`,
  readyAt: 'It must be ready at',
  startBy: (time: string) => `Start by ${time}.`,
  tooLate: (ms: number) =>
    `Too late for that by ${count(Math.ceil(ms / 60_000), 'minute', 'minutes')}. Tell whoever opens.`
}

export type GatherWords = typeof gatherWordsEn
