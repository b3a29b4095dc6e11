/** The plan of a procedure file as a shell sees it: what is printed, and how it ends when the input is bad. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, describe, expect, it } from 'vitest'
import { EVERYTHING, withHead } from '../helpers/a-procedure.ts'
import { planCommand } from './plan-command.ts'

const folder = mkdtempSync(join(tmpdir(), 'sidecall-plan-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))
let files = 0

function fileOf(text: string): string {
  files += 1
  const file = join(folder, `procedure-${files}.yaml`)
  writeFileSync(file, text)
  return file
}

interface PrintedPlan {
  readonly lanes: readonly string[]
  readonly finishSeconds: number
  readonly lowerBoundSeconds: number
  readonly gapSeconds: number
  readonly switches: number
  readonly order: readonly { lane: string; step: string; hands: number; startSeconds: number; endSeconds: number }[]
  readonly naive: Readonly<Record<string, number>>
}

function planned(file: string, ...options: string[]): PrintedPlan {
  const { code, out, err } = planCommand([file, ...options, '--json'])
  expect({ code, err }).toEqual({ code: 0, err: '' })
  return JSON.parse(out) as PrintedPlan
}

const SHIPPED = ['closing', 'opening'].map((name) =>
  fileURLToPath(new URL(`../../procedures/twin-freezer-${name}.yaml`, import.meta.url))
)

const SOAK = fileOf(
  withHead(`  - stage: Soak
    steps:
      - {step: soak, say: Soak it., hands: 10 s, wait: {for: soak, at least: 1 min, at most: 2 min, source: Label}}
      - {step: rinse, say: Rinse it., hands: 20 s}
      - {step: tray, on: bench, say: Wash the tray., hands: 40 s}`)
)

describe('the plan of a file', () => {
  it('fills the waits of both sides with each other and with the bench', () => {
    // 10 + 5 + 10 + 5 + 40, and the first side has waited long enough: 5 + 20 + 5 + 20.
    expect(planned(SOAK)).toMatchObject({
      finishSeconds: 120,
      lowerBoundSeconds: 120,
      gapSeconds: 0,
      switches: 4,
      naive: { oneSideThenOther: 230, stayUntilWait: 120 }
    })
  })

  it('names each step with its lane and times', () => {
    expect(planned(SOAK).order[0]).toEqual({
      lane: 'left',
      step: 'soak',
      round: 1,
      hands: 0,
      startSeconds: 0,
      endSeconds: 10,
      waitSeconds: 60
    })
  })

  it('is printed in lines for people', () => {
    const { code, out } = planCommand([SOAK])
    expect(code).toBe(0)
    expect(out).toContain('0:00:00 - 0:00:10  left   soak   then waits 0:01:00')
    expect(out).toContain('Over after 0:02:00, with 4 changes of lane.\nNo order ends earlier.')
  })

  it.each(SHIPPED)('%s is best, and no naive order is over earlier', (file) => {
    const { finishSeconds, gapSeconds, naive, order } = planned(file)
    expect(gapSeconds).toBe(0)
    for (const seconds of Object.values(naive)) expect(seconds).toBeGreaterThanOrEqual(finishSeconds)
    expect(new Set(order.map(({ lane }) => lane))).toEqual(new Set(['left', 'right', 'bench', 'machine']))
  })

  it.each([1, 2, 3, 5])('takes the sides over until there are %i', (sides) => {
    const { lanes, order } = planned(SOAK, '--sides', String(sides))
    expect(lanes).toHaveLength(sides + 1)
    for (const lane of lanes) expect(order.some((task) => task.lane === lane)).toBe(true)
    expect(planned(SOAK, '--sides=2')).toMatchObject({ finishSeconds: 120 })
  })

  it('gives a further side what the side it is taken from does', () => {
    const file = fileOf(
      withHead(`  - stage: A
    steps:
      - {step: both, say: Wipe it., hands: 10 s}
      - {step: only-left, on: left, say: Wipe it., hands: 10 s}`)
    )
    const { order } = planned(file, '--sides', '4')
    const lanes = order.filter(({ step }) => step === 'only-left').map(({ lane }) => lane)
    expect(lanes.sort()).toEqual(['left', 'side-3'])
  })

  it('shares the work among several pairs of hands', () => {
    const one = planned(SOAK)
    const two = planned(SOAK, '--hands', '2')
    expect(two.finishSeconds).toBeLessThan(one.finishSeconds)
    expect(new Set(two.order.map(({ hands }) => hands))).toEqual(new Set([0, 1]))
    expect(two.lowerBoundSeconds).toBeLessThanOrEqual(two.finishSeconds)
  })

  it('comes to an end for as many lanes as can be planned', () => {
    const { lanes, gapSeconds } = planned(fileOf(EVERYTHING), '--sides', '38')
    expect(lanes).toHaveLength(40)
    expect(gapSeconds).toBeGreaterThanOrEqual(0)
  })
})

const stages = (steps: string) => fileOf(withHead(`  - stage: A\n    steps:\n      - {step: wipe, ${steps}}`))
const RING = fileOf(
  withHead(
    `  - stage: A
    steps:
      - {step: a, on: left, say: Take it., hands: 10 s, take: [pail]}
      - {step: b, on: left, say: Take it., hands: 10 s, take: [brush], free: [pail, brush]}
      - {step: c, on: right, say: Take it., hands: 10 s, take: [brush]}
      - {step: d, on: right, say: Take it., hands: 10 s, take: [pail], free: [pail, brush]}`,
    'tools:\n  - {id: pail, name: Pail}\n  - {id: brush, name: Brush}'
  )
)
const REPEATS = fileOf(
  withHead(
    Array.from(
      { length: 8 },
      (_, stage) =>
        `  - stage: S${stage}\n    steps:\n${Array.from(
          { length: 100 },
          (_, index) =>
            `      - {step: s${stage}-${index}, say: Look., hands: 5 s, ask: {question: Good?}, again: {from: s0-0, at least: 50, at most: 50}}`
        ).join('\n')}`
    ).join('\n')
  )
)
const HUNDRED = fileOf(
  withHead('  - stage: A\n    steps:\n      - {step: wipe, say: Wipe it., hands: 10 s}').replace(
    /sides:[^]*?stages/,
    `sides:\n${Array.from({ length: 100 }, (_, index) => `  - {id: s${index}, name: Side ${index}}`).join('\n')}\nstages`
  )
)

describe('bad input', () => {
  it.each<readonly [string, readonly string[], RegExp]>([
    ['no file', [], /Name a procedure file/],
    ['two files', [SOAK, RING], /one procedure file, not 2/],
    ['a file that is not there', [join(folder, 'none.yaml')], /There is no file/],
    ['a folder', [folder], /cannot be read/],
    ['no YAML', [fileOf('a: [1')], /.yaml:\d+:\d+ /],
    ['an empty file', [fileOf('')], /.yaml/],
    ['another kind of YAML', [fileOf('- 1\n- 2')], /.yaml/],
    ['bytes', [fileOf('\u0000\u0001\ufffd')], /.yaml/],
    ['a step without length', [stages('say: Wipe it., hands: 0 s')], /"wipe" gives no time/],
    ['a negative time', [stages('say: Wipe it., hands: -5 s')], /yaml:\d+:\d+ .*hands/],
    [
      'a maximum under its minimum',
      [stages('say: Wipe it., hands: 5 s, wait: {for: soak, at least: 5 min, at most: 2 min, source: Label}')],
      /longest wait of step "wipe" is shorter/
    ],
    ['a tool nobody has', [stages('say: Wipe it., hands: 5 s, take: [hose]')], /"wipe" names "hose"/],
    ['an impossible order of tools', [RING], /Step "d" takes "pail" while its lane holds "brush"/],
    ['a hundred lanes', [HUNDRED], /100 lanes, more than can be planned/],
    ['more repeats than anybody does', [REPEATS], /at least \d+ steps .* more than can be planned/],
    ['a hundred sides', [SOAK, '--sides', '100'], /101 lanes, more than can be planned/],
    ['too many sides', [SOAK, '--sides', '1000000'], /More than 100 cannot be/],
    ['no sides', [SOAK, '--sides', '0'], /must be more than 0/],
    ['half a side', [SOAK, '--sides', '2.5'], /must be a whole number/],
    ['sides that are no number', [SOAK, '--sides', 'two'], /no number/],
    ['sides without a number', [SOAK, '--sides'], /needs a value/],
    ['no hands', [SOAK, '--hands', '0'], /must be more than 0/],
    ['too many hands', [SOAK, '--hands', '9'], /More than 8 cannot be/],
    ['an unknown option', [SOAK, '--lanes', '3'], /There is no option --lanes/]
  ])('%s', (_, args, expected) => {
    const plain = planCommand(args)
    expect(plain).toMatchObject({ code: 2, out: '' })
    expect(plain.err).toMatch(expected)
    const json = planCommand([...args, '--json'])
    expect(json).toMatchObject({ code: 2, err: '' })
    expect(JSON.parse(json.out)).toMatchObject({ error: { message: expect.stringMatching(expected) } })
  })
})

it('prints JSON and nothing else from a shell', () => {
  const top = fileURLToPath(new URL('../..', import.meta.url))
  const run = (...args: string[]) =>
    spawnSync('npm', ['run', '--silent', 'plan', '--', ...args], { cwd: top, encoding: 'utf8', timeout: 60_000 })
  expect(JSON.parse(run(SOAK, '--json').stdout)).toMatchObject({ finishSeconds: 120 })
  expect(run(RING).status).toBe(2)
})
