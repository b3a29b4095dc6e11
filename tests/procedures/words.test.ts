/** The shipped words against published writing rules and against the ears that listen while they are spoken. */
import { describe, expect, it } from 'vitest'
import { commandIn } from '../../src/core/procedure/lint/hearing.ts'
import { sentencesIn, wordsIn } from '../../src/core/procedure/lint/steps-in.ts'
import { inUnits } from '../../src/core/talk/quantities.ts'
import { SHIPPED, stepsOf } from './shipped-files.ts'
import { stepTexts } from './step-texts.ts'

describe.each(SHIPPED)('$name', ({ procedure }) => {
  const texts = stepTexts(procedure)

  it('speaks enough to be worth checking', () => {
    expect(texts.length).toBeGreaterThan(stepsOf(procedure).length * 2)
  })

  it.each(['metric', 'us'] as const)('keeps each headline to twelve words in %s units', (system) => {
    const tooLong = texts.filter(({ place, text }) => place === 'say' && wordsIn(inUnits(text, system)).length > 12)
    expect(tooLong).toEqual([])
  })

  it('starts each headline with a verb, after its condition where there is one', () => {
    // ASD-STE100 rules 5.3 and 5.4: imperative form; the condition first, then a comma, then the command.
    const verbs =
      /^(?:(?:When|With) [^,]+, )?(?:add|brush|build|call|carry|close|count|dip|drain|draw|empty|fill|gather|grease|hang|hold|hook|lay|lift|look|loosen|measure|mix|mop|open|peel|pour|press|pull|push|put|read|rinse|roll|rub|run|scrape|scrub|set|slide|spray|start|stir|swab|take|throw|tighten|try|turn|unhook|unscrew|wash|wipe|write)\b/i
    expect(texts.filter(({ place, text }) => place === 'say' && !verbs.test(text))).toEqual([])
  })

  it('says no word the ears could take for a command', () => {
    expect(texts.filter(({ text }) => commandIn(text) !== null)).toEqual([])
  })

  it('keeps detail and reason to three sentences of at most twenty words', () => {
    // ASD-STE100: a procedural sentence has at most 20 words. Three facts: Barshi and Healy, from memory.
    const tooLong = texts.filter(({ place, text }) => {
      const sentences = sentencesIn(inUnits(text, 'metric'))
      return place !== 'source' && (sentences.length > 3 || sentences.some((sentence) => wordsIn(sentence).length > 20))
    })
    expect(tooLong).toEqual([])
  })

  it('keeps every text short enough to hear and to show', () => {
    const all = [
      ...texts.map(({ text }) => text),
      ...Object.values(procedure.summary),
      ...Object.values(procedure.machine)
    ]
    expect(all.filter((text) => text.length > 600)).toEqual([])
  })

  it('gives each caution hazard, consequence and avoidance in one sentence or two', () => {
    // ANSI Z535.6 and IEC 82079-1, as quoted by secondary pages: hazard, consequence, avoidance, concise.
    const cautions = texts.filter(({ place }) => place === 'caution')
    expect(cautions.length).toBeGreaterThan(0)
    expect(cautions.filter(({ text }) => sentencesIn(text).length > 2)).toEqual([])
  })

  it('plans hands-on times between ten seconds and two minutes', () => {
    expect(stepsOf(procedure).filter(({ handsSeconds }) => handsSeconds < 10 || handsSeconds > 120)).toEqual([])
  })
})
