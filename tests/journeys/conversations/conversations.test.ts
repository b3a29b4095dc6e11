/** Conversations word for word, each in a text file of its theme: what the operator says, what Sidecall says, how time passes. */
import { readFileSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, describe, expect, test } from 'vitest'
import type { Language } from '../../../src/core/talk/languages.ts'
import { EVERYTHING, SMALL } from '../../helpers/a-procedure.ts'
import { kitchen, type Kitchen } from '../../helpers/kitchen-page.ts'
import { playConversation } from '../../helpers/played-conversation.ts'
import { ALARMED, BOTH_LANGUAGES, LONG, ODD, POWER, STRENGTHS, TWO_WAITS } from './procedures.ts'

const PROCEDURES: Readonly<Record<string, string>> = {
  small: SMALL,
  everything: EVERYTHING,
  waits: TWO_WAITS,
  strengths: STRENGTHS,
  power: POWER,
  alarmed: ALARMED,
  odd: ODD,
  long: LONG,
  both: BOTH_LANGUAGES
}

interface Conversation {
  readonly title: string
  readonly procedure: string
  /** Who is told everything, as somebody new is. */
  readonly newcomer: string | null
  /** What Ada chose. */
  readonly language: Language
  readonly lines: readonly string[]
}

/** A script begins with `== Title (procedure)`; `(procedure, Ada new)` for an operator who is told everything, `(procedure, in Spanish)` for one who works in Spanish. */
function conversationsIn(text: string): readonly Conversation[] {
  return text.split(/^== /m).flatMap((part) => {
    const [head = '', ...lines] = part.split('\n')
    const [, title = '', procedure = '', newcomer, spanish] =
      /^(.*) \((\w+)(?:, (Ada|Ben) new)?(, in Spanish)?\)$/.exec(head) ?? []
    if (title === '') return []
    return [
      {
        title,
        procedure,
        newcomer: newcomer ?? null,
        language: spanish === undefined ? 'en' : 'es',
        lines: lines.map((line) => line.trim()).filter((line) => line !== '')
      }
    ]
  })
}

const folder = import.meta.dirname
const themes = readdirSync(folder)
  .filter((name) => name.endsWith('.txt'))
  .map((name) => ({ theme: name.replace('.txt', ''), all: conversationsIn(readFileSync(join(folder, name), 'utf8')) }))

let opened: Kitchen | null = null
afterEach(() => opened?.end())

describe.each(themes)('$theme', ({ all }) => {
  test.each(all)('$title', async ({ procedure, newcomer, language, lines }) => {
    opened = await kitchen(PROCEDURES[procedure] ?? '')
    const page = await opened.start('Ada', newcomer === null ? [] : [newcomer], { Ada: language, Ben: 'en' })
    expect(await playConversation(opened, page, lines)).toBe(lines.join('\n'))
    page.close()
  })
})

test('there are enough of them to tell a good colleague', () => {
  expect(themes.flatMap(({ all }) => all).length).toBeGreaterThanOrEqual(40)
})
