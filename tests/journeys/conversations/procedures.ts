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

/** In two languages: waits, a caution, a phrase, a count, a question with rounds and a reading. */
export const BOTH_LANGUAGES = `procedure: two-languages
title: {en: Test, es: Prueba}
summary: {en: Test, es: Prueba}
languages: [en, es]
machine: {en: Test machine, es: Máquina de prueba}
sides: [{id: left, name: {en: Left, es: Izquierda}}, {id: right, name: {en: Right, es: Derecha}}]
parts: [{id: ring, name: {en: Ring, es: Empaque}, per: side, count: 3, care: dry}]
stages:
  - stage: {en: Clean, es: Limpie}
    steps:
      - step: pour
        say: {en: Pour the cleaner in., es: Eche el limpiador.}
        more: {en: Stop at the line., es: Llene hasta la línea.}
        why: {en: Grease lets go only in the cleaner., es: La grasa se suelta solo en el limpiador.}
        hands: 20 s
        cautions:
          - signal: warning
            hazard: {en: Cleaner and hot water., es: Limpiador y agua caliente.}
            consequence: {en: They can burn skin., es: Pueden quemar la piel.}
            avoid: {en: Keep the gloves on., es: Trabaje con guantes.}
        wait: {for: soak, at least: 5 min, source: {en: Ours, es: Nuestra}}
      - step: strength
        say: {en: Dip a strip., es: Meta una tira.}
        hands: 15 s
        read:
          question: {en: What does it read?, es: ¿Cuánto marca?}
          reading: strength
          unit: ppm
          at least: 100
          at most: 200
          source: {en: Label, es: Etiqueta}
          if not: [{en: Mix it anew., es: Prepare otra mezcla.}, {en: Use a new strip., es: Use otra tira.}]
      - step: rings
        say: {en: Count the rings., es: Cuente los empaques.}
        hands: 15 s
        count: {question: {en: How many?, es: ¿Cuántos son?}, parts: [ring], going: 'off', if not: [{en: Find it., es: Búsquelo.}]}
      - step: power
        on: whole machine
        say: {en: Turn the power on., es: Encienda el interruptor.}
        hands: 10 s
        confirm: {en: hands are clear, es: las manos están fuera}
`
