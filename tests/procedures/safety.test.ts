/** Power, moving parts and hands, followed through each shipped procedure in its own order. */
import { describe, expect, it } from 'vitest'
import type { Procedure, Step } from '../../src/core/procedure/procedure.ts'
import { FREEZER, SHIPPED, stepsOf } from './shipped-files.ts'

const say = (step: Step) => step.say['en'] ?? ''
const confirmed = (step: Step) => step.confirm?.['en']
const onMachine = (step: Step) => step.on.kind === 'machine'

const HANDS_IN =
  /^(Pull|Push|Lift|Slide|Brush|Lay|Build|Rinse)\b.*\b(pump|feed tube|beater|blades|shaft|bearing|cylinder|hub|hoppers?|hole|door)\b/
const DRIVEN = /\b(hub|rear bearing|beater)\b/
const STARTS = /^Turn the control to (wash|pump|freeze)|turn the power switch on/
const MOVING = /beater|hub|drive|pump/i

const reachesIn = (step: Step) => step.on.kind !== 'bench' && HANDS_IN.test(say(step))
const warnsOfMotion = (step: Step) =>
  step.cautions.some(({ signal, hazard }) => signal === 'warning' && MOVING.test(hazard['en'] ?? ''))

/** Steps in the author's order with the state the power is in as each begins. */
function withPower(procedure: Procedure): { step: Step; power: 'on' | 'off' | 'proved off' }[] {
  let power: 'on' | 'off' | 'proved off' = 'on'
  return stepsOf(procedure).map((step) => {
    const before = power
    if (onMachine(step)) {
      if (/power switch off/.test(say(step)) || /plug out/.test(step.check?.ask['en'] ?? '')) power = 'off'
      if (say(step).startsWith('Try each control') && confirmed(step) === 'power is off') power = 'proved off'
      if (/put in the plug/.test(say(step))) power = 'off'
      if (/power switch on/.test(say(step))) power = 'on'
    }
    return { step, power: before }
  })
}

describe.each(FREEZER)('$name', ({ procedure }) => {
  const steps = withPower(procedure)

  it('proves power off only after it was turned off, and turns it on again only from off', () => {
    const proofs = steps.filter(({ step }) => say(step).startsWith('Try each control'))
    expect(proofs.length).toBeGreaterThanOrEqual(2)
    expect(proofs.filter(({ power }) => power !== 'off')).toEqual([])
    expect(steps.filter(({ step, power }) => /power switch on/.test(say(step)) && power === 'on')).toEqual([])
  })

  it('lets hands into the machine only while power is proved off', () => {
    const inside = steps.filter(({ step }) => reachesIn(step))
    expect(inside.length).toBeGreaterThanOrEqual(8)
    expect(inside.filter(({ power }) => power !== 'proved off').map(({ step }) => step.id)).toEqual([])
  })

  it('asks for a whole phrase and warns wherever hands meet a driven part', () => {
    const atDriven = steps.filter(({ step }) => reachesIn(step) && DRIVEN.test(say(step)))
    expect(atDriven.length).toBeGreaterThanOrEqual(3)
    const bare = atDriven.filter(({ step }) => !warnsOfMotion(step) || confirmed(step) !== 'power is off')
    expect(bare.map(({ step }) => step.id)).toEqual([])
  })

  it('asks for clear hands and warns wherever something starts to turn', () => {
    const starts = steps.filter(({ step }) => STARTS.test(say(step)))
    expect(starts.length).toBeGreaterThanOrEqual(4)
    expect(
      starts
        .filter(({ step }) => !warnsOfMotion(step) || confirmed(step) !== 'hands are clear')
        .map(({ step }) => step.id)
    ).toEqual([])
    expect(
      starts.filter(({ step, power }) => /control to/.test(say(step)) && power !== 'on').map(({ step }) => step.id)
    ).toEqual([])
  })

  it('never leaves a warning of moving parts to the everyday word', () => {
    expect(steps.filter(({ step }) => warnsOfMotion(step) && step.confirm === null).map(({ step }) => step.id)).toEqual(
      []
    )
  })

  it('turns a beater or pump off again before anything else is turned on that side', () => {
    const turned = steps.map(({ step }) => say(step)).filter((words) => words.startsWith('Turn the control to'))
    const started = turned.flatMap((words, index) => (/wash|pump/.test(words) ? [turned[index + 1]] : []))
    expect(started.length).toBeGreaterThanOrEqual(2)
    expect(started).toEqual(started.map(() => 'Turn the control to off.'))
  })

  it.each([
    ['cleaner or sanitizer is mixed', /^(Mix|Fill).*(cleaner|sanitizer)/, /splash|skin|eyes/],
    ['the plug is handled', /\bthe plug\.$/, /shock/],
    ['the door is lifted', /^Lift the door/, /heavy/],
    ['scraper blades are handled', /\bblades?\b|beater (out|in|and)|^Slide the beater/, /sharp|blades/i]
  ])('warns where %s', (_, work, caution) => {
    const working = stepsOf(procedure).filter((step) => work.test(say(step)))
    expect(working.length).toBeGreaterThan(0)
    const bare = working.filter(
      ({ cautions }) =>
        !cautions.some(({ hazard, consequence }) => caution.test(`${hazard['en']} ${consequence['en']}`))
    )
    expect(bare.map(({ id }) => id)).toEqual([])
  })

  it('begins with supplies and a hand wash of twenty seconds, and ends with a call that all is complete', () => {
    // FDA Food Code 2-301.12: at least 20 seconds in all.
    const [first, ...others] = stepsOf(procedure)
    expect(first && say(first)).toMatch(/^Gather/)
    const wash = others.find((step) => say(step).startsWith('Wash your hands'))
    expect(wash?.handsSeconds).toBeGreaterThanOrEqual(20)
    expect(wash && stepsOf(procedure).indexOf(wash)).toBeLessThan(4)
    const last = others.at(-1)
    expect(last && onMachine(last) && last.check?.kind).toBe('yes-no')
    expect(last && say(last)).toMatch(/complete/)
  })
})

describe('signal words', () => {
  // ANSI Z535.4 as quoted by secondary pages: danger and warning for death or serious injury, caution for minor or moderate, notice for property.
  it.each([
    ['warning', /kill|die|crush|take off|break|blind/],
    ['caution', /burn|cut|slip|crush fingers/],
    ['notice', /slips|cracks|leaks|wears/]
  ])('%s fits what the hazard does', (signal, consequence) => {
    const all = SHIPPED.flatMap(({ procedure }) => stepsOf(procedure))
      .flatMap(({ cautions }) => cautions)
      .filter((caution) => caution.signal === signal)
    expect(all.length).toBeGreaterThan(0)
    expect(all.map((caution) => caution.consequence['en'] ?? '').filter((text) => !consequence.test(text))).toEqual([])
  })
})
