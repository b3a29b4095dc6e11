/** A procedure of 200 steps in two languages, sound by every check, with what makes real ones heavy. */
const STAGES = 10
const STEPS = 20

export const LONG_TITLE = 'Bench of two hundred steps'

export function longProcedure(): string {
  const both = (en: string, es: string) => `{ en: '${en}', es: '${es}' }`
  const stages = Array.from({ length: STAGES }, (_, stage) => {
    const steps = Array.from({ length: STEPS }, (__, index) => {
      const id = `step-${stage}-${index}`
      // A whole-machine step ends each stage: so the plan is cut into stretches, as it is in real procedures.
      if (index === STEPS - 1) {
        return `      - step: ${id}
        on: whole machine
        say: ${both(`Look over part ${id} of the machine.`, `Revise la parte ${id}.`)}
        hands: 15 s`
      }
      const on =
        index % 4 === 3 ? '\n        on: bench' : index % 2 === 0 ? '\n        on: left' : '\n        on: right'
      const wait =
        index % 5 === 0
          ? `
        wait:
          for: soak
          at least: 2 min
          at most: 30 min
          source: ${both('Common practice.', 'Práctica común.')}`
          : ''
      const ask =
        index % 7 === 2
          ? `
        ask:
          question: ${both('Is it clear?', '¿Está claro?')}
          if not:
            - ${both('Wash it anew.', 'Lávelo de nuevo.')}`
          : ''
      return `      - step: ${id}${on}
        say: ${both(`Wash piece ${index} of set ${stage}.`, `Lave la pieza ${index}.`)}
        more: ${both('Use a soft brush. Look into each hole.', 'Use un cepillo blando.')}
        why: ${both('Soil in a hole carries germs.', 'La suciedad lleva gérmenes.')}
        hands: 25 s
        cautions:
          - signal: notice
            hazard: ${both('Small parts.', 'Piezas pequeñas.')}
            consequence: ${both('They fall into the drain.', 'Caen al desagüe.')}
            avoid: ${both('Hold them over the tray.', 'Sosténgalas sobre la bandeja.')}${wait}${ask}`
    })
    return `  - stage: ${both(`Set ${stage}`, `Grupo ${stage}`)}
    steps:
${steps.join('\n')}`
  })
  return `procedure: bench-long
title: ${both(LONG_TITLE, 'Prueba de doscientos pasos')}
summary: ${both('A procedure for measuring.', 'Un procedimiento para medir.')}
languages: [en, es]
machine: ${both('Bench machine', 'Máquina de prueba')}
sides:
  - { id: left, name: ${both('Left', 'Izquierda')} }
  - { id: right, name: ${both('Right', 'Derecha')} }
stages:
${stages.join('\n')}
`
}
