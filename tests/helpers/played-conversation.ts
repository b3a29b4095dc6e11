/**
 * Plays a conversation on the real page over the real server, with ears, mouth and alarm that a test holds. A script is text,
 * one line each; what the operator does is carried out, and what then happens comes back in the same form:
 *
 *     Sidecall: Left. Fill the hopper.
 *     Sidecall, cut off: Left. Fill the hopper.
 *     Operator: all done
 *     Sidecall, unheard: Left. Fill the hopper.
 *     (5 min pass)
 *     In between: (presses the pedal)        (while Sidecall still speaks)
 *     (the alarm rings)
 */
import { parseDuration } from '../../src/core/procedure/duration.ts'
import type { Kitchen, Page } from './kitchen-page.ts'

const SLICE_MS = 250
const ANSWER_MS = 1000

export async function playConversation(kitchen: Kitchen, page: Page, script: readonly string[]): Promise<string> {
  const played: string[] = []
  const seen = { said: 0, rings: 0 }

  /** In the order they began; a line is written once it is known how it ended. */
  function look(): void {
    for (; seen.rings < page.alarm.rings.length; seen.rings += 1) played.push('(the alarm rings)')
    for (; seen.said < page.mouth.said.length; seen.said += 1) {
      const { text, outcome } = page.mouth.said[seen.said] ?? { text: '', outcome: null }
      if (outcome === null) return
      played.push(`Sidecall${{ said: '', stopped: ', cut off', failed: ', unheard' }[outcome.kind]}: ${text}`)
    }
  }

  async function pass(ms: number): Promise<void> {
    for (let left = ms; left > 0; left -= SLICE_MS) {
      await kitchen.pass(Math.min(SLICE_MS, left))
      look()
    }
  }

  /** Until nobody speaks or rings any more and the ears are open, or cannot be. */
  async function quiet(): Promise<void> {
    for (let turn = 0; turn < 400; turn += 1) {
      await pass(SLICE_MS)
      const { kind } = page.ears.state()
      if (page.mouth.now() === null && !page.alarm.ringing() && kind !== 'gated' && kind !== 'starting') return
    }
    throw new Error(`It never becomes quiet: ${page.mouth.now() ?? 'the alarm rings'}.`)
  }

  /** People take a second to answer; sooner it would be taken for the room's echo of what was just said. */
  async function operatorSays(words: string): Promise<void> {
    await pass(ANSWER_MS)
    for (let turn = 0; page.ears.state().kind !== 'listening'; turn += 1) {
      if (turn > 100) throw new Error(`Nobody hears "${words}": the ears are ${page.ears.state().kind}.`)
      await pass(SLICE_MS)
    }
    played.push(`Operator: ${words}`)
    page.ears.mishear(...words.split(' / '))
  }

  const actions: readonly (readonly [RegExp, (words: string) => Promise<void> | void])[] = [
    [/^Operator: (.*)$/, operatorSays],
    [/^\((.+) pass(?:es)?\)$/, (time) => pass(secondsOf(time) * 1000)],
    [/^\(presses the pedal\)$/, () => page.run().conductor.intend({ type: 'done' }, 'key')],
    [/^\(holds the key\)$/, () => page.run().conductor.intend({ type: 'held' }, 'key')],
    [/^\(touches what now\)$/, () => page.run().conductor.intend({ type: 'what-now' }, 'touch')],
    [/^\(touches (\w+)\)$/, (lane) => page.run().conductor.intend({ type: 'lane', lane }, 'touch')],
    [/^\(hands over to (.+)\)$/, (to) => page.run().conductor.carryOut({ type: 'hand-over', to }, 'touch')],
    [/^\(the server is away\)$/, () => kitchen.serverAway(true)],
    [/^\(the voice fails\)$/, () => page.mouth.become({ kind: 'mute', reason: 'no-voice' })]
  ]

  await quiet()
  const acted = script.filter((line) => !/^(Sidecall|\(the alarm rings)/.test(line))
  for (const [index, line] of acted.entries()) {
    // While it speaks the ears are closed: only keys, pedal and touch can cut in.
    const [, cutsIn] = /^In between: (.*)$/.exec(line) ?? []
    const [pattern, act] = actions.find(([known]) => known.test(cutsIn ?? line)) ?? []
    if (!pattern || !act) throw new Error(`a script cannot say: ${line}`)
    if (!line.startsWith('Operator: ')) played.push(line)
    await act(pattern.exec(cutsIn ?? line)?.[1] ?? '')
    if (acted[index + 1]?.startsWith('In between: ')) await pass(SLICE_MS)
    else if (!/pass(es)?\)$/.test(line)) await quiet()
  }
  await quiet()
  return played.join('\n')
}

function secondsOf(time: string): number {
  const seconds = parseDuration(time)
  if (seconds === null) throw new Error(`a script cannot wait for: ${time}`)
  return seconds
}
