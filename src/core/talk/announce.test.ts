/** What is said while a run goes on, word for word. Scripts are read in tests/helpers/spoken-script.ts. */
import { describe, it, test } from 'vitest'
import { aCourse, aProcedure, EVERYTHING, SMALL } from '../../../tests/helpers/a-procedure.ts'
import { expectScript } from '../../../tests/helpers/spoken-script.ts'
import { layOut } from '../procedure/course.ts'

const SMALL_COURSE = layOut(aProcedure(SMALL))
const EVERY_COURSE = layOut(aProcedure(EVERYTHING))
const NEVER_CLEAR = aCourse(`  - stage: A
    steps:
      - {step: rinse, on: left, say: Rinse it., hands: 20 s}
      - {step: clear, on: left, say: Draw a cup., hands: 5 s, ask: {question: Is it clear?}, again: {from: clear, at most: 2}}`)

test('a whole small run, from the first word to the last', () => {
  expectScript(
    SMALL_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: all done
    Sidecall: Left. Soaking time begins: 2 minutes.
    Sidecall: Right. Fill the hopper.
    Operator: next step
    Sidecall: Right. Soaking time begins: 2 minutes.
    Sidecall: Both hands are free. Left needs you in 2 minutes.
    (2 min pass)
    Sidecall: Left. Soaking time is over.
    Operator: okay
    Sidecall: Right. Soaking time is over.
    Operator: yes
    Sidecall: Right. Draw a cup.
    Sidecall: Is it clear?
    Operator: yes
    Sidecall: Left. Last was: Fill the hopper.
    Sidecall: Now: Draw a cup.
    Sidecall: Is it clear?
    Operator: yes
    Sidecall: Whole machine. Switch the power on.
    Sidecall: When it is so, tell me: hands are clear. Or hold the button down.
    Operator: all done
    Sidecall: This one needs the whole phrase: hands are clear.
    Operator: hands are clear
    Sidecall: The run is complete. Thank you.`
  )
})

test('a rinse is done as often as it must be, and says which round it is', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Left. Last was: Open the draw valve.
    Sidecall: Now: Look at the rinse.
    Sidecall: Is it clear?
    Operator: yes
    Sidecall: Left. Round 2, of 2 at least.
    Sidecall: Left. Fill the hopper.
    Operator: go back
    Sidecall: Canceled. Left: Look at the rinse.
    Sidecall: Left. Look at the rinse.
    Sidecall: Is it clear?
    Operator: no
    Sidecall: Left. Round 2, of 4 at most.
    Sidecall: Left. Fill the hopper.`,
    { from: 'left clear' }
  )
})

test('an alarm that was answered in time leaves time to finish the step', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Left. Last was: Pour in the sanitizer.
    Sidecall: Now: Dip a strip.
    Sidecall: What does it read?
    (2 min 10 s pass)
    Sidecall: Right. Contact time is over.
    Operator: yes
    Sidecall: Left. Last was: Pour in the sanitizer.
    Sidecall: Now: Dip a strip.
    Sidecall: What does it read?
    Operator: 150
    Sidecall: 150 ppm. Is that so?
    Operator: yes
    Sidecall: Left. Lay the parts out.
    Sidecall: How many pieces?`,
    { from: 'left strength' }
  )
})

test('one side waits and is not to be hurried', () => {
  expectScript(
    SMALL_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: all done
    Sidecall: Left. Soaking time begins: 2 minutes.
    Sidecall: Right. Fill the hopper.
    Operator: left side
    Sidecall: Too soon. Left: 2 minutes to go.
    Operator: go to the right
    Sidecall: Right. Fill the hopper.
    Operator: all done
    Sidecall: Right. Soaking time begins: 2 minutes.
    Sidecall: Both hands are free. Left needs you in 2 minutes.
    Operator: all done
    Sidecall: Too soon. Left: 2 minutes to go.
    (30 s pass)
    Operator: next step
    Sidecall: Too soon. Left: 1 minute 30 seconds to go.
    Operator: how long
    Sidecall: Left. Soaking time: 1 minute 30 seconds to go.
    Sidecall: Right. Soaking time: 1 minute 30 seconds to go.`
  )
})

test('a rinse that never clears stops after its last round', () => {
  expectScript(
    NEVER_CLEAR,
    `
    Sidecall: Left. Rinse it.
    Operator: all done
    Sidecall: Left. Draw a cup.
    Sidecall: Is it clear?
    Operator: no
    Sidecall: Left. Round 2, of 2 at most.
    Sidecall: Left. Draw a cup.
    Sidecall: Is it clear?
    Operator: no
    Sidecall: Left. That was the last round, and it is still not good.
    Sidecall: Nothing happens here until it is mended. Then tell me: put right.
    Operator: put right
    Sidecall: Left. Draw a cup.
    Sidecall: Is it clear?
    Operator: yes
    Sidecall: The run is complete. Thank you.`
  )
})

test('any word the ears know answers an alarm and does nothing else', () => {
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
    Operator: go back
    Sidecall: Right. Soaking time is over.
    Operator: no
    Sidecall: Right. Draw a cup.
    Sidecall: Is it clear?
    Operator: go back
    Sidecall: Canceled. Right: Fill the hopper.
    Sidecall: Right. Fill the hopper.`
  )
})

test('words that are not known answer no alarm', () => {
  expectScript(
    SMALL_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: all done
    Sidecall: Left. Soaking time begins: 2 minutes.
    Sidecall: Right. Fill the hopper.
    (2 min pass)
    Sidecall: Left. Soaking time is over.
    Operator: where is my spoon
    Sidecall: Answer yes, press a key or touch the screen.
    Operator: stop
    Sidecall: Right. Fill the hopper.`
  )
})

test('two waits that end together ring one after the other', () => {
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
    Sidecall: Is it clear?`
  )
})

describe('the first step after coming back to a side', () => {
  const BACK = `
    Sidecall: Right. Last was: Look at the rinse.
    Sidecall: Now: Pour in the sanitizer.
    Operator: next
    Sidecall: Right. Pour in the sanitizer. Is that so?`

  it('counts only once it is confirmed', () => {
    expectScript(
      EVERY_COURSE,
      `${BACK}
    Operator: no
    Sidecall: Right. Last was: Look at the rinse.
    Sidecall: Now: Pour in the sanitizer.
    Operator: all done
    Sidecall: Right. Pour in the sanitizer. Is that so?
    Operator: all done
    Sidecall: Right. Contact time begins: 1 minute.
    Sidecall: Both hands are free. Left needs you in 1 minute.`,
      { from: 'right sanitize' }
    )
  })

  it('can be left open for another question', () => {
    expectScript(
      EVERY_COURSE,
      `${BACK}
    Operator: how long
    Sidecall: Left. Contact time: 1 minute to go.`,
      { from: 'right sanitize' }
    )
  })

  it('comes after a pause too', () => {
    expectScript(
      SMALL_COURSE,
      `
    Sidecall: Left. Fill the hopper.
    Operator: all done
    Sidecall: Left. Soaking time begins: 2 minutes.
    Sidecall: Right. Fill the hopper.
    Operator: hold on
    Sidecall: Paused. The clocks still run.
    Operator: carry on
    Sidecall: Resumed.
    Sidecall: Right. Fill the hopper.
    Operator: all done
    Sidecall: Right. Fill the hopper. Is that so?
    Operator: yes
    Sidecall: Right. Soaking time begins: 2 minutes.
    Sidecall: Both hands are free. Left needs you in 2 minutes.`
    )
  })
})

test('hands are free while everything waits', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Right. Last was: Look at the rinse.
    Sidecall: Now: Pour in the sanitizer.
    Operator: all done
    Sidecall: Right. Pour in the sanitizer. Is that so?
    Operator: yes
    Sidecall: Right. Contact time begins: 1 minute.
    Sidecall: Both hands are free. Left needs you in 1 minute.
    Operator: say again
    Sidecall: Both hands are free. Left needs you in 1 minute.
    (10 s pass)
    Operator: say again
    Sidecall: Both hands are free. Left needs you in 50 seconds.
    Operator: what now
    Sidecall: Both hands are free. Left needs you in 50 seconds.
    Operator: a problem
    Sidecall: Noted. Right is stopped. When it is mended, tell me: put right.`,
    { from: 'right sanitize' }
  )
})

test('a longest time that is missed means starting again', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Left. Last was: Pour in the sanitizer.
    Sidecall: Now: Dip a strip.
    Sidecall: What does it read?
    (2 min 35 s pass)
    Sidecall: Right. Contact time is over.
    Operator: all done
    Sidecall: Left. Contact time took too long.
    Sidecall: Pour it out and start again. Then tell me: put right.
    Operator: put right
    Sidecall: Left. Pour in the sanitizer.`,
    { from: 'left strength' }
  )
})

test('a pause stops the work and not the clocks', () => {
  expectScript(
    SMALL_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: all done
    Sidecall: Left. Soaking time begins: 2 minutes.
    Sidecall: Right. Fill the hopper.
    Operator: hold on
    Sidecall: Paused. The clocks still run.
    Operator: hold on
    Sidecall: Paused. The clocks still run.
    Operator: all done
    Sidecall: The run is paused. To resume, tell me: carry on.
    Operator: how long
    Sidecall: Left. Soaking time: 2 minutes to go.
    (2 min pass)
    Sidecall: Left. Soaking time is over.
    Operator: okay
    Sidecall: Paused. The clocks still run.
    Operator: carry on
    Sidecall: Resumed.
    Sidecall: Right. Fill the hopper.
    Operator: carry on
    Sidecall: Right. Fill the hopper.`
  )
})

test('a lane cannot begin with a tool that another one holds', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    Operator: all done
    Sidecall: Left. Warning. The beater turns. It crushes fingers. Keep hands out.
    Operator: right side
    Sidecall: Right needs a tool that is in use: Pail. It is at: Left.
    Operator: bench
    Sidecall: Bench. Scrub the tray.
    Operator: left
    Sidecall: Left. Last was: Fill the hopper.
    Sidecall: Warning. The beater turns. It crushes fingers. Keep hands out.`
  )
})

test('a colleague takes over and hears where things stand', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Left. Last was: Fill the hopper.
    Sidecall: Warning. The beater turns. It crushes fingers. Keep hands out.
    Operator: yes
    Sidecall: Left. Start the beater.
    (hands over to Ben)
    Sidecall: Ben carries on from here.
    Sidecall: Left. Last was: Fill the hopper.
    Sidecall: Warning. The beater turns. It crushes fingers. Keep hands out.
    Operator: all done
    Sidecall: First the caution. Answer yes when you understand.`,
    { from: 'left soak' }
  )
})

test('a side that stands at a whole-machine step stays until the others are there', () => {
  expectScript(
    EVERY_COURSE,
    `
    Sidecall: Right. Last was: Open the draw valve.
    Sidecall: Now: Look at the rinse.
    Sidecall: Is it clear?
    Operator: left side
    Sidecall: Left comes after the others. First: Whole machine.
    Operator: whole machine
    Sidecall: Whole machine comes after the others. First: Right.`,
    { from: 'right clear' }
  )
})

test('a run that is ended early says so', () => {
  expectScript(
    SMALL_COURSE,
    `
    Sidecall: Left. Fill the hopper.
    (ends the run: The power failed.)
    Sidecall: The run was ended early.
    Operator: all done
    Sidecall: The run is over.`
  )
})
