/** A wait on each side, one longer than the other, and nothing else to do meanwhile. */
import { withHead } from '../../helpers/a-procedure.ts'

export const TWO_WAITS = withHead(`  - stage: Soak
    steps:
      - step: pour
        say: Pour the cleaner in.
        hands: 20 s
        more: Pour slowly. Stop at the line. Close the lid at once. It foams.
        why: Grease lets go only in the cleaner.
        wait: {for: soak, at least: 5 min, source: Common practice}
      - {step: drain, say: Open the draw valve., hands: 20 s, wait: {for: drain, at least: 1 min, source: Common practice}}
      - step: strength
        say: Dip a strip.
        hands: 15 s
        read: {question: What does it read?, reading: strength, unit: ppm, at least: 100, at most: 200, source: Label, if not: [Mix it anew.]}
      - {step: wipe, say: Wipe the door., hands: 20 s}`)

/** A reading at once. */
export const STRENGTHS = withHead(`  - stage: Test
    steps:
      - step: strength
        say: Dip a strip.
        hands: 15 s
        read: {question: What does it read?, reading: strength, unit: ppm, at least: 100, at most: 200, source: Label, if not: [Mix it anew.]}
      - {step: wipe, say: Wipe the door., hands: 20 s}`)

/** A phrase at once. */
export const POWER = withHead(`  - stage: Power
    steps:
      - {step: power, on: whole machine, say: Switch the power on., hands: 10 s, confirm: hands are clear}
      - {step: wipe, say: Wipe the door., hands: 20 s}`)

/** A wait that ends while the other side's caution is said. */
export const ALARMED = withHead(`  - stage: Mix
    steps:
      - {step: pour, on: left, say: Pour it in., hands: 5 s, wait: {for: soak, at least: 1 min, source: Ours}}
      - {step: rinse, on: right, say: Rinse it., hands: 5 s}
      - step: beat
        on: right
        say: Start the beater.
        hands: 10 s
        cautions:
          - {signal: warning, hazard: The beater turns., consequence: It crushes fingers., avoid: Keep hands out.}`)

export const ODD = withHead(
  '  - {stage: A, steps: [{step: a, on: left, say: "**Close** the `draw` valve 🚰 & wipe DV-7B at 43 °C (110 °F).", hands: 5 s}]}'
)

export const LONG = withHead(
  `  - {stage: A, steps: [{step: a, on: left, say: "${'Wipe the door slowly and with care. '.repeat(16).trim()}", hands: 5 s}]}`
)
