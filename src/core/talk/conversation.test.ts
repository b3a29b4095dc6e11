/** How Sidecall answers, word for word. Scripts are read in tests/helpers/spoken-script.ts. */
import { FIRST_HANDS } from '../run/run.ts'
import { expect, it, test } from 'vitest'
import { aCourse, aProcedure, EVERYTHING, SMALL } from '../../../tests/helpers/a-procedure.ts'
import { expectScript, METRIC, startTalk } from '../../../tests/helpers/spoken-script.ts'
import { layOut } from '../procedure/course.ts'
import type { Told } from './call-words.ts'
import { NEW_CONVERSATION, respond } from './conversation.ts'

const SMALL_COURSE = layOut(aProcedure(SMALL))
const EVERY_COURSE = layOut(aProcedure(EVERYTHING))

test('a caution is not passed by any other word', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: all done
    Sidecall: Left. Warning. The beater turns. It crushes fingers. Keep hands out.
    Operator: next
    Sidecall: First the caution. Answer yes when you understand.
    Operator: all done
    Sidecall: First the caution. Answer yes when you understand.
    Operator: how long
    Sidecall: All waits are over.
    Operator: no
    Sidecall: Left. Warning. The beater turns. It crushes fingers. Keep hands out.
    Sidecall: Answer yes when you understand.
    Operator: yes
    Sidecall: Left. Start the beater.`,
    { from: 'left fill' }
  )
})

test('a confirming phrase must be whole', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Whole machine. Switch the power off.
    Sidecall: When it is so, tell me: power is off. Or hold the button down.
    Operator: all done
    Sidecall: This one needs the whole phrase: power is off.
    Operator: next step
    Sidecall: This one needs the whole phrase: power is off.
    Operator: yes
    Sidecall: Nothing was asked.
    Operator: power off
    Sidecall: I did not understand that.
    Operator: the power is off now
    Sidecall: I did not understand that.
    Sidecall: You can also touch the screen or use the pedal.
    Sidecall: When it is so, tell me: power is off. Or hold the button down.
    Operator: okay, power is off
    Sidecall: Left. Last was: Look at the rinse.
    Sidecall: Now: Pour in the sanitizer.`,
    { from: 'machine power' }
  )
})

test('a held key stands for the phrase, a short press does not', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Whole machine. Switch the power off.
    Sidecall: When it is so, tell me: power is off. Or hold the button down.
    (presses the pedal)
    Sidecall: This one needs the whole phrase: power is off.
    (holds the key)
    Sidecall: Left. Last was: Look at the rinse.
    Sidecall: Now: Pour in the sanitizer.`,
    { from: 'machine power' }
  )
})

test('a question is not passed by being done', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Left. Last was: Open the draw valve.
    Sidecall: Now: Look at the rinse.
    Sidecall: Is it clear?
    Operator: all done
    Sidecall: This one needs an answer. Is it clear?
    Operator: next
    Sidecall: This one needs an answer. Is it clear?
    Operator: four
    Sidecall: I did not understand that.
    Operator: yes
    Sidecall: Left. Round 2, of 2 at least.
    Sidecall: Left. Fill the hopper.`,
    { from: 'left clear' }
  )
})

test('a reading is read back, and only a yes takes it', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Left. Last was: Pour in the sanitizer.
    Sidecall: Now: Dip a strip.
    Sidecall: What does it read?
    Operator: next step
    Sidecall: This one needs an answer. What does it read?
    Operator: yes
    Sidecall: This one needs an answer. What does it read?
    Operator: 75 degrees fahrenheit
    Sidecall: I need it in ppm.
    Operator: one fifteen
    Sidecall: 115 ppm. Is that so?
    Operator: no
    Sidecall: What is the number?
    Operator: one fifty ppm
    Sidecall: 150 ppm. Is that so?
    Operator: say again
    Sidecall: 150 ppm. Is that so?
    Operator: one sixty
    Sidecall: 160 ppm. Is that so?
    Operator: yes
    Sidecall: Left. Lay the parts out.
    Sidecall: How many pieces?`,
    { from: 'left strength' }
  )
})

test('a reading out of limits stops its lane until it is put right and read anew', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Left. Last was: Pour in the sanitizer.
    Sidecall: Now: Dip a strip.
    Sidecall: What does it read?
    Operator: 250
    Sidecall: 250 ppm. Is that so?
    Operator: yes
    Sidecall: Left. Out of limits: 250 ppm.
    Sidecall: Remix the sanitizer. Or: Use a new strip. Then tell me: put right.
    Operator: all done
    Sidecall: Left is stopped. First it must be put right.
    Operator: go back
    Sidecall: Left is stopped. First it must be put right.
    Operator: put right
    Sidecall: What did you do? 1. Remix the sanitizer. 2. Use a new strip. Tell me the number.
    Operator: three
    Sidecall: What did you do? 1. Remix the sanitizer. 2. Use a new strip. Tell me the number.
    Operator: two
    Sidecall: Left. Dip a strip.
    Sidecall: What does it read?
    Operator: 150
    Sidecall: 150 ppm. Is that so?
    Operator: yes
    Sidecall: Left. Lay the parts out.
    Sidecall: How many pieces?`,
    { from: 'left strength' }
  )
})

test('a count that is short says what was expected', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Left. Last was: Dip a strip.
    Sidecall: Now: Lay the parts out.
    Sidecall: How many pieces?
    Operator: three
    Sidecall: 3. Is that so?
    Operator: yes
    Sidecall: Left. Counted: 3. Expected: 4.
    Sidecall: Find the missing part. Then tell me: put right.
    Operator: it is fixed
    Sidecall: Left. Lay the parts out.
    Sidecall: How many pieces?
    Operator: four
    Sidecall: 4. Is that so?
    Operator: yes
    Sidecall: Both hands are free. Right needs you in 5 seconds.`,
    { from: 'left pieces' }
  )
})

test('the last step is taken back at once on the lane in hand', () => {
  expectScript(
    SMALL_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: all done
    Sidecall: Left. Soaking time begins: 2 minutes.
    Sidecall: Right. Fill the hopper.
    Operator: all done
    Sidecall: Right. Soaking time begins: 2 minutes.
    Sidecall: Both hands are free. Left needs you in 2 minutes.
    Operator: go back
    Sidecall: Canceled. Right: Fill the hopper.
    Sidecall: Right. Fill the hopper.`
  )
})

test('the last step on another lane is taken back only after a question', () => {
  expectScript(
    SMALL_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: all done
    Sidecall: Left. Soaking time begins: 2 minutes.
    Sidecall: Right. Fill the hopper.
    Operator: go back
    Sidecall: Left. Cancel this: Fill the hopper?
    Operator: no
    Sidecall: It stays as it was.
    Operator: undo
    Sidecall: Left. Cancel this: Fill the hopper?
    Operator: yes
    Sidecall: Canceled. Left: Fill the hopper.
    Sidecall: Right. Fill the hopper.`
  )
})

test('nothing can be taken back before anything was done', () => {
  expectScript(
    SMALL_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: go back
    Sidecall: Nothing has been recorded yet.`
  )
})

test('a problem stops its lane until it is mended', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Left. Last was: Start the beater.
    Sidecall: Now: Open the draw valve.
    Operator: we have a problem
    Sidecall: Noted. Left is stopped. When it is mended, tell me: put right.
    Operator: a problem
    Sidecall: Left is stopped.
    Sidecall: Nothing happens here until it is mended. Then tell me: put right.
    Operator: all done
    Sidecall: Left is stopped. First it must be put right.
    Operator: bench
    Sidecall: Bench is complete.
    Operator: left side
    Sidecall: Left is stopped.
    Sidecall: Nothing happens here until it is mended. Then tell me: put right.
    Operator: it's fixed
    Sidecall: Left. Open the draw valve.`,
    { from: 'left empty' }
  )
})

test('a problem can be told in words on the screen', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Left. Last was: Start the beater.
    Sidecall: Now: Open the draw valve.
    (reports on left: The seal is torn.)
    Sidecall: Noted. Left is stopped. When it is mended, tell me: put right.
    Operator: what now
    Sidecall: Left. Problem: The seal is torn.
    Sidecall: Nothing happens here until it is mended. Then tell me: put right.
    Operator: go back
    Sidecall: Canceled. Left: The seal is torn.
    Sidecall: Left. Last was: Start the beater.
    Sidecall: Now: Open the draw valve.`,
    { from: 'left empty' }
  )
})

test('why and more, where something is written and where nothing is', () => {
  expectScript(
    SMALL_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: why
    Sidecall: Milk dries on what stays dry.
    Operator: tell me more
    Sidecall: Fill it to the mark.
    Operator: all done
    Sidecall: Left. Soaking time begins: 2 minutes.
    Sidecall: Right. Fill the hopper.
    Operator: all done
    Sidecall: Right. Soaking time begins: 2 minutes.
    Sidecall: Both hands are free. Left needs you in 2 minutes.
    (2 min pass)
    Sidecall: Left. Soaking time is over.
    Operator: yes
    Sidecall: Right. Soaking time is over.
    Operator: yes
    Sidecall: Right. Draw a cup.
    Sidecall: Is it clear?
    Operator: why
    Sidecall: The reason is not written down.
    Operator: more
    Sidecall: There is nothing further to tell.`
  )
})

test('how long, with none, one and two waits', () => {
  expectScript(
    SMALL_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: how long
    Sidecall: All waits are over.
    Operator: all done
    Sidecall: Left. Soaking time begins: 2 minutes.
    Sidecall: Right. Fill the hopper.
    (10 s pass)
    Operator: how long
    Sidecall: Left. Soaking time: 1 minute 50 seconds to go.
    Operator: all done
    Sidecall: Right. Soaking time begins: 2 minutes.
    Sidecall: Both hands are free. Left needs you in 1 minute 50 seconds.
    (30 s pass)
    Operator: how much longer
    Sidecall: Left. Soaking time: 1 minute 20 seconds to go.
    Sidecall: Right. Soaking time: 1 minute 30 seconds to go.`
  )
})

test('words that mean nothing are said to, and twice in a row other ways are offered', () => {
  expectScript(
    SMALL_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: the quick brown fox
    Sidecall: I did not understand that.
    Operator: jumps over
    Sidecall: I did not understand that.
    Sidecall: You can also touch the screen or use the pedal.
    Sidecall: You can say: all done, say again or tell me more.
    Operator: say again
    Sidecall: Left. Fill the hopper.
    Operator: lazy dogs
    Sidecall: I did not understand that.
    Operator: all dumb / all done
    Sidecall: Left. Soaking time begins: 2 minutes.
    Sidecall: Right. Fill the hopper.`
  )
})

test('words that could mean two things are asked about', () => {
  expectScript(
    SMALL_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: stop
    Sidecall: Which do you mean: hold on or a problem?
    Operator: hold on
    Sidecall: Paused. The clocks still run.
    Operator: carry on
    Sidecall: Resumed.
    Sidecall: Left. Fill the hopper.
    Operator: back
    Sidecall: Which do you mean: go back or say again?
    Operator: say again
    Sidecall: Left. Fill the hopper.
    Operator: again
    Sidecall: Which do you mean: say again or go back?
    Operator: go back
    Sidecall: Nothing has been recorded yet.
    Operator: okay
    Sidecall: Is this step all done?
    Operator: no
    Sidecall: It stays as it was.
    Operator: okay
    Sidecall: Is this step all done?
    Operator: yes
    Sidecall: Left. Soaking time begins: 2 minutes.
    Sidecall: Right. Fill the hopper.`
  )
})

test('right is a side, an answer, or a question', () => {
  expectScript(
    SMALL_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: all done
    Sidecall: Left. Soaking time begins: 2 minutes.
    Sidecall: Right. Fill the hopper.
    Operator: right
    Sidecall: Right. Fill the hopper.
    Operator: okay, right
    Sidecall: Which do you mean: go to right, yes or all done?
    Operator: go to right
    Sidecall: Right. Fill the hopper.`
  )
})

test('right where a yes or no is open', () => {
  expectScript(
    SMALL_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: all done
    Sidecall: Left. Soaking time begins: 2 minutes.
    Sidecall: Right. Fill the hopper.
    Operator: all done
    Sidecall: Right. Soaking time begins: 2 minutes.
    Sidecall: Both hands are free. Left needs you in 2 minutes.
    (2 min pass)
    Sidecall: Left. Soaking time is over.
    Operator: yes
    Sidecall: Right. Soaking time is over.
    Operator: yes
    Sidecall: Right. Draw a cup.
    Sidecall: Is it clear?
    Operator: right
    Sidecall: Which do you mean: go to right or yes?
    Operator: right side
    Sidecall: Right. Draw a cup.
    Sidecall: Is it clear?
    Operator: left side
    Sidecall: Left. Last was: Fill the hopper.
    Sidecall: Now: Draw a cup.
    Sidecall: Is it clear?
    Operator: that's right
    Sidecall: Right. Last was: Fill the hopper.
    Sidecall: Now: Draw a cup.
    Sidecall: Is it clear?`
  )
})

test('help tells what can be said now', () => {
  expectScript(
    SMALL_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: help
    Sidecall: You can say: all done, say again, tell me more, why, go back or hold on.
    Operator: all done
    Sidecall: Left. Soaking time begins: 2 minutes.
    Sidecall: Right. Fill the hopper.
    Operator: all done
    Sidecall: Right. Soaking time begins: 2 minutes.
    Sidecall: Both hands are free. Left needs you in 2 minutes.
    Operator: what can i say
    Sidecall: You can say: how long, ready when, what now or go back.
    Operator: hold on
    Sidecall: Paused. The clocks still run.
    Operator: help me
    Sidecall: You can say: carry on or how long.`
  )
})

test('numbers mean nothing where none is asked for', () => {
  expectScript(
    SMALL_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: five
    Sidecall: I did not understand that.
    Operator: all done
    Sidecall: Left. Soaking time begins: 2 minutes.
    Sidecall: Right. Fill the hopper.`
  )
})

test('a correction chosen on the screen needs no question', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Left. Last was: Pour in the sanitizer.
    Sidecall: Now: Dip a strip.
    Sidecall: What does it read?
    Operator: 250
    Sidecall: 250 ppm. Is that so?
    Operator: yes
    Sidecall: Left. Out of limits: 250 ppm.
    Sidecall: Remix the sanitizer. Or: Use a new strip. Then tell me: put right.
    (chooses: Use a new strip.)
    Sidecall: Left. Dip a strip.
    Sidecall: What does it read?
    Operator: go back
    Sidecall: Canceled. Left: Use a new strip.
    Sidecall: Left. Out of limits: 250 ppm.
    Sidecall: Remix the sanitizer. Or: Use a new strip. Then tell me: put right.`,
    { from: 'left strength' }
  )
})

test('a caution, a reading, a question, a stop and a wait each have their own help', () => {
  const helpAt = (from: string, ...before: readonly string[]) => {
    const talk = startTalk(EVERY_COURSE)
    talk.workUpTo(from)
    for (const words of before) talk.hearWords(words)
    talk.hearWords('help')
    return talk.transcript().at(-1)
  }
  expect(helpAt('left soak')).toBe('Sidecall: You can say: yes, say again or a problem.')
  expect(helpAt('left clear')).toBe('Sidecall: You can say: yes, no, say again, why or a problem.')
  expect(helpAt('left strength')).toBe('Sidecall: You can say: say again, tell me more, why or a problem.')
  expect(helpAt('left strength', '250', 'yes')).toBe('Sidecall: You can say: put right, say again or why.')
  expect(helpAt('right sanitize', 'all done', 'yes')).toBe(
    'Sidecall: You can say: how long, ready when, what now or go back.'
  )
})

it('is quiet at once when told to be, and says nothing about it', () => {
  const talk = startTalk(SMALL_COURSE)
  const told: Told = {
    course: SMALL_COURSE,
    run: talk.run(),
    at: 1_000_000,
    manner: METRIC,
    device: FIRST_HANDS,
    outlook: null
  }
  expect(respond(NEW_CONVERSATION, { type: 'quiet' }, told)).toEqual({
    asking: null,
    commands: [],
    lines: [],
    hush: true
  })
})

it('says amounts in the units of the shop', () => {
  const course = aCourse("  - {stage: A, steps: [{step: fill, say: 'Pour in {7.6 L | 2 gal}.', hands: 5 s}]}")
  expectScript(course, 'Sidecall: Left. Pour in 7.6 L.')
  expectScript(course, 'Sidecall: Left. Pour in 2 gal.', { manner: { ...METRIC, units: 'us' } })
})

const WEARING = aCourse(
  '  - {stage: A, steps: [{step: wipe, on: left, say: Wipe it., hands: 10 s}, {step: dry, on: left, say: Dry it., hands: 10 s}]}',
  `parts:
  - {id: seal, name: Seal, per: side, count: 1, care: grease, replace after: {days: 90}}`
)

test('a new part is named by its number, and can be taken back', () => {
  expectScript(
    WEARING,
    `
    Sidecall: Left. Wipe it.
    Operator: part replaced
    Sidecall: Which one did you put in new? 1. Left: Seal. 2. Right: Seal. 3. All of these. Tell me the number.
    Operator: seven
    Sidecall: Which one did you put in new? 1. Left: Seal. 2. Right: Seal. 3. All of these. Tell me the number.
    Operator: two
    Sidecall: Right. Noted as replaced: Seal.
    Sidecall: Left. Wipe it.
    Operator: go back
    Sidecall: Right. Cancel this: Replaced: Seal?
    Operator: yes
    Sidecall: Canceled. Right: Replaced: Seal.
    Sidecall: Left. Wipe it.`
  )
})

test('where nothing wears, nothing is asked', () => {
  expectScript(
    aCourse('  - {stage: A, steps: [{step: wipe, on: left, say: Wipe it., hands: 10 s}]}'),
    `
    Sidecall: Left. Wipe it.
    Operator: part replaced
    Sidecall: Nothing here is counted as wearing out.`
  )
})
