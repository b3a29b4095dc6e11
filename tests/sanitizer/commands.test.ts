/** Both command line tools as a shell sees them: what they print, and how they end when the input is bad. */
import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { VOLUME_ML } from '../../src/core/sanitizer/unit.ts'
import { judgeCommand } from './judge-command.ts'
import { mixCommand } from './mix-command.ts'

const words = (line: string) => line.match(/"[^"]*"|\S+/g)?.map((word) => word.replaceAll('"', '')) ?? []
const asJson = (out: string) => JSON.parse(out) as Record<string, unknown>
const mixed = (line: string) => asJson(mixCommand([...words(line), '--json']).out)
const judged = (line: string) => asJson(judgeCommand([...words(line), '--json']).out)

describe('mix', () => {
  it.each([
    // Label percent times 10,000 where nothing else is said: 82,500 ppm.
    ['--label-percent 8.25 --target-ppm 100 --volume-l 7.6', 9.2121, 100],
    ['--label-percent 8.25 --target-ppm 100 --volume-l 7.6 --convention trade', 9.2121, 100],
    // By weight: over 1.05, times the density.
    ['--label-percent 8.25 --target-ppm 100 --volume-l 7.6 --convention weight --density 1.1', 8.7934, 100],
    ['--label-percent 8.25 --target-ppm 100 --volume-l 7.6 --convention weight --density 1', 9.6727, 100],
    ['--label-percent 8.25 --target-ppm 100 --volume-l 7.6 --convention available --density 1.1', 8.3747, 100],
    // With the lower of the usual densities, so that it is never too weak.
    ['--label-percent 8.25 --target-ppm 100 --volume-l 7.6 --convention weight', 8.9562, 100],
    ['--label-percent 12.5 --target-ppm 200 --volume-l 2081.976481', 3331.16, 200],
    ['--agent quat --label-percent 10 --target-ppm 400 --volume "1 gal-us"', 15.1416, 400],
    ['--agent iodine --label-percent 1.75 --target-ppm 25 --volume-l 10', 14.2857, 25]
  ])('%s: %s mL', (line, milliliters, resultPpm) => {
    const json = mixed(line)
    expect(json).toMatchObject({ refused: false, resultPpm })
    expect(Number(json['milliliters']) / milliliters).toBeCloseTo(1, 4)
    expect(json['readStrip']).toMatch(/strip/)
  })

  it.each([
    ['tsp-us', 2, 'US tsp', 107.01],
    ['ml', 10, 'mL', 108.55],
    ['syringe', 9.3, 'mL by syringe', 100.95],
    ['tbsp-australian', 0.5, 'Australian tbsp', 108.55],
    ['floz-us', 0.5, 'US fl oz', 160.52]
  ])('rounds up in %s and says what it makes', (measure, count, name, resultPpm) => {
    const json = mixed(`--label-percent 8.25 --target-ppm 100 --volume-l 7.6 --measure ${measure}`)
    expect(json).toMatchObject({ refused: false, measure: { id: measure, count } })
    expect((json['measure'] as { text: string }).text).toContain(name)
    expect(json['resultPpm']).toBeCloseTo(resultPpm, 1)
    // What is asked for stays exact beside it.
    expect(json['milliliters']).toBeCloseTo(9.2121, 3)
  })

  it.each([
    ['--label-percent 8.25 --target-ppm 300 --volume-l 7.6', 'over-cap'],
    ['--label-percent 8.25 --target-ppm 200.1 --volume-l 7.6', 'over-cap'],
    ['--agent iodine --label-percent 1.75 --target-ppm 26 --volume-l 7.6', 'over-cap'],
    ['--agent quat --label-percent 10 --target-ppm 401 --volume-l 7.6', 'over-cap'],
    ['--label-percent 8.25 --target-ppm 250 --volume-l 7.6 --rules australia-new-zealand', 'over-cap'],
    ['--label-percent 3 --target-ppm 100 --volume-l 7.6 --convention weight', 'density-missing'],
    ['--agent quat --label-percent 10 --target-ppm 200 --volume-l 7.6 --convention weight', 'density-missing'],
    ['--label-percent 8.25 --target-ppm 200 --volume-l 7.6 --convention weight', 'density-too-vague'],
    ['--label-percent 0.005 --target-ppm 100 --volume-l 7.6', 'stock-too-weak'],
    ['--label-percent 0.01 --target-ppm 100 --volume-l 7.6', 'stock-too-weak'],
    ['--label-percent 8.25 --target-ppm 100 --volume-l 1 --measure cup-us', 'no-step-fits'],
    ['--label-percent 8.25 --target-ppm 100 --volume-l 7.6 --measure g', 'wrong-measure']
  ])('refuses %s: %s', (line, code) => {
    const json = mixed(line)
    expect(json).toMatchObject({ refused: true, code, milliliters: null, measure: null, resultPpm: null })
    expect((json['reasons'] as string[])[0]).toMatch(/^Refused: .+\.$/)
    expect(mixCommand(words(line)).code).toBe(0)
  })

  it('that has no step to fit names measures that fit', () => {
    const json = mixed('--label-percent 8.25 --target-ppm 100 --volume-l 1 --measure cup-us')
    expect(json['fitting']).toContain('syringe')
    expect((json['fitting'] as string[]).length).toBeGreaterThan(1)
  })

  it.each([
    ['--form powder --label-percent 65 --target-ppm 100 --volume-l 10 --measure g', { grams: 1.5385, count: 2 }],
    ['--form tablet --tablet-mg 500 --target-ppm 100 --volume-l 7.6 --measure tablet', { tablets: 1.52, count: 2 }]
  ])('weighs and counts: %s', (line, { count, ...exact }) => {
    const json = mixed(line)
    for (const [key, value] of Object.entries(exact)) expect(json[key]).toBeCloseTo(value, 3)
    expect(json).toMatchObject({ refused: false, milliliters: null, measure: { count } })
  })

  it('says that a weak target is no sanitizer, and mixes it all the same', () => {
    const json = mixed('--label-percent 12.5 --target-ppm 5 --volume-l 100')
    expect(json['milliliters']).toBeCloseTo(4)
    expect((json['reasons'] as string[])[0]).toContain('25 ppm is the least')
  })

  it('tells what a dose made, and refuses what is over the cap', () => {
    const dose = (amount: string) => mixed(`--label-percent 8.25 --volume "1 gal-us" --added "${amount}"`)
    expect(dose('1 tsp-us')).toMatchObject({ refused: false, resultPpm: expect.closeTo(107.42, 1) })
    expect(dose('2 tsp-us')).toMatchObject({ refused: true, resultPpm: expect.closeTo(214.84, 1) })
    expect(dose('1 tsp-us')['milliliters']).toBeCloseTo(VOLUME_ML['tsp-us'])
  })

  it('takes percent, convention and density from a label in the folder', () => {
    const json = mixed('--label our-sanitizer --target-ppm 100 --volume-l 7.6')
    expect(json['milliliters']).toBeCloseTo(8.7934, 3)
  })

  it('shows how far off rules of thumb are', () => {
    const { out } = mixCommand(['--household'])
    expect(out).toContain('published 200 ppm, makes 261 ppm: stronger than published, over the cap')
    expect(out).toContain('makes 68 to 107 ppm: weaker than published')
  })

  it('speaks to people without --json', () => {
    const { out } = mixCommand(words('--label-percent 8.25 --target-ppm 100 --volume-l 7.6 --measure tsp-us'))
    expect(out.split('\n')[0]).toBe('Put 2 US tsp in, and fill up with cool water to 7.6 L.')
    expect(out).toContain('Read a strip before you use it.')
  })
})

describe('mix with bad input', () => {
  const BASE = { 'label-percent': '8.25', 'target-ppm': '100', 'volume-l': '7.6' }
  const line = (change: Record<string, string | null>) =>
    Object.entries({ ...BASE, ...change }).flatMap(([name, value]) => (value === null ? [] : [`--${name}`, value]))

  it.each([
    [{ 'label-percent': null }, /--label-percent is missing/],
    [{ 'target-ppm': null }, /--target-ppm is missing/],
    [{ 'volume-l': null }, /--volume-l is missing/],
    [{ 'label-percent': '0' }, /must be more than 0/],
    [{ 'label-percent': '-8.25' }, /must be more than 0/],
    [{ 'label-percent': '101' }, /cannot be/],
    [{ 'label-percent': '50' }, /powder/],
    [{ 'label-percent': '8,25' }, /Do you mean 8\.25\?/],
    [{ 'label-percent': '8.25%' }, /no number/],
    [{ 'label-percent': 'eight' }, /no number/],
    [{ 'target-ppm': '0' }, /must be more than 0/],
    [{ 'target-ppm': '-100' }, /must be more than 0/],
    [{ 'target-ppm': '1,000' }, /1 or 1000/],
    [{ 'target-ppm': '1e2' }, /no number/],
    [{ 'target-ppm': '2000000' }, /cannot be/],
    [{ 'target-ppm': 'NaN' }, /no number/],
    [{ 'volume-l': '0' }, /must be more than 0/],
    [{ 'volume-l': '-1' }, /must be more than 0/],
    [{ 'volume-l': '7,6' }, /Do you mean 7\.6\?/],
    [{ 'volume-l': 'Infinity' }, /no number/],
    [{ 'volume-l': '1000000' }, /cannot be/],
    [{ 'volume-l': '' }, /needs a value/],
    [{ 'volume-l': null, volume: '2 gal' }, /Which gal: US or imperial\?/],
    [{ 'volume-l': null, volume: '2' }, /2 of what\?/],
    [{ 'volume-l': null, volume: '2 C' }, /no volume/],
    [{ 'volume-l': null, volume: '-2 L' }, /below zero/],
    [{ volume: '2 L' }, /not both/],
    [{ density: '0' }, /must be more than 0/],
    [{ density: '8' }, /between 0.7 and 2/],
    [{ density: '1,1' }, /Do you mean 1\.1\?/],
    [{ convention: 'mass' }, /It can be: weight, trade, available/],
    [{ measure: 'tsp' }, /It can be: .*tsp-us/],
    [{ measure: 'toString' }, /It can be/],
    [{ agent: 'bleach' }, /It can be: chlorine/],
    [{ rules: 'narnia' }, /It can be: .*us-food-code/],
    [{ form: 'powder', density: '1' }, /no meaning/],
    [{ label: 'our-sanitizer' }, /not both/],
    [{ added: '2 mL' }, /not both/],
    [{ 'target-ppm': null, added: '9 L' }, /more than the whole batch/],
    [{ 'target-ppm': null, added: '2 tsp' }, /Which tsp/],
    [{ strength: '5' }, /There is no option --strength/]
  ])('%o', (change, expected) => {
    const plain = mixCommand(line(change))
    expect(plain).toMatchObject({ code: 2, out: '' })
    expect(plain.err).toMatch(expected)
    const json = mixCommand([...line(change), '--json'])
    expect(json).toMatchObject({ code: 2, err: '' })
    expect(asJson(json.out)).toMatchObject({ error: { message: expect.stringMatching(expected) } })
  })

  it.each([
    [['--json'], /--label-percent is missing/],
    [['8.25', '--json'], /belongs to no option/],
    [[...line({}), '--volume-l', '8', '--json'], /given twice/],
    [['--label-percent', '--json'], /needs a value/],
    [[...line({}), '--json=yes'], /takes no value/]
  ])('%j', (args, expected) => {
    const { code, out, err } = mixCommand(args)
    expect(code).toBe(2)
    expect(out + err).toMatch(expected)
  })
})

describe('judge', () => {
  it.each([
    ['--agent chlorine --ppm 100 --temp-c 24 --ph 7 --seconds 60', 'good', '4-501.114(A)'],
    ['--agent chlorine --ppm 100 --temp-f 55 --ph 10 --seconds 10', 'good', '4-501.114(A)'],
    ['--agent chlorine --ppm 40 --temp-c 24 --ph 7 --seconds 60', 'out', '4-501.114(A)'],
    ['--agent chlorine --ppm 100 --temp-c 24 --ph 7 --seconds 5', 'out', '4-703.11(C)'],
    ['--agent chlorine --ppm 250 --temp-c 24 --ph 7 --seconds 60', 'out', '180.940'],
    ['--agent chlorine --ppm 100 --temp-c 24 --seconds 60', 'unknown', '4-501.114(A)'],
    ['--agent chlorine --ppm 100 --temp-c 24 --ph 7 --seconds 60 --label-ppm 150', 'out', 'Product label'],
    ['--agent chlorine --ppm 100 --temp-c 24 --ph 7 --seconds 60 --label-seconds 120', 'out', 'Product label'],
    ['--agent chlorine --ppm 100 --seconds 30 --rules california', 'good', 'California'],
    ['--agent iodine --ppm 12.5 --temp-c 20 --ph 5 --seconds 30', 'good', '4-501.114(B)'],
    ['--agent quat --ppm 200 --temp-c 24 --seconds 30', 'unknown', '4-501.114(C)'],
    ['--agent quat --ppm 200 --temp-c 24 --seconds 60 --label-ppm 200 --label-seconds 60', 'good', '4-501.114(C)'],
    ['--agent quat --ppm 150 --temp-c 24 --seconds 60 --label-ppm 200 --label-seconds 60', 'out', 'Product label'],
    ['--agent hot-water --temp-c 77 --seconds 30', 'good', '4-703.11(A)'],
    ['--agent hot-water --temp-c 76 --seconds 30', 'out', '4-703.11(A)'],
    ['--agent cold-holding --temp-c -18', 'good', '3-501.16'],
    ['--agent rinse --clear no', 'out', 'Common practice'],
    ['--agent chlorine --ppm 150 --temp-c 24 --ph 7 --seconds 120 --label our-sanitizer', 'good', 'Example Sanitizer']
  ])('%s: %s by %s', (line, verdict, source) => {
    const json = judged(line)
    expect(json).toMatchObject({ verdict, source: expect.stringContaining(source) })
    const reasons = json['reasons'] as string[]
    expect(reasons.length > 0).toBe(verdict !== 'good')
    expect(judgeCommand(words(line)).code).toBe(0)
  })

  it('says what, by how much and what to do', () => {
    expect(judged('--agent chlorine --ppm 40 --temp-c 50 --ph 7 --seconds 8')['reasons']).toEqual([
      'Contact time 8 s, wanted at least 10 s: 2 s too low. Keep it wet until the time is full.'
    ])
    expect(judged('--agent chlorine --ppm 210.5 --temp-c 50 --ph 7 --seconds 60')['reasons']).toEqual([
      'Strength 210.5 ppm, wanted at most 200 ppm: 10.5 ppm too high. Pour it out, mix a weaker batch, and read it again.'
    ])
    expect(judged('--agent chlorine --ppm 100 --temp-c 24 --seconds 60')['reasons']).toEqual(['The pH is missing.'])
  })

  it('says that nobody measured the hardness', () => {
    const json = judged('--agent quat --ppm 200 --temp-c 24 --seconds 60 --label-ppm 200')
    expect(json['notes']).toEqual(['The hardness of the water was not given. It must be at most 500 mg/L.'])
  })

  it('tells how long it has to stay on', () => {
    expect(judged('--agent chlorine --ppm 50 --temp-c 24 --ph 8')['contactSeconds']).toBe(7)
  })
})

describe('judge with bad input', () => {
  it.each([
    ['', /--agent is missing/],
    ['--agent soap --ppm 5', /It can be: chlorine/],
    ['--agent chlorine --ppm -1', /cannot be/],
    ['--agent chlorine --ppm 8,25', /Do you mean 8\.25\?/],
    ['--agent chlorine --ppm abc', /no number/],
    ['--agent chlorine --ppm 2000000', /cannot be/],
    ['--agent chlorine --ph 15', /between 0 and 14/],
    ['--agent chlorine --ph -1', /between 0 and 14/],
    ['--agent chlorine --temp-c 150', /between 0 and 100/],
    ['--agent chlorine --temp-c -5', /between 0 and 100/],
    ['--agent chlorine --temp-f 400', /between 32 and 212/],
    ['--agent cold-holding --temp-c -300', /between -60 and 100/],
    ['--agent chlorine --temp-c 20 --temp-f 68', /not both/],
    ['--agent chlorine --seconds -1', /cannot be/],
    ['--agent chlorine --seconds 1000000', /cannot be/],
    ['--agent chlorine --hardness -1', /cannot be/],
    ['--agent chlorine --label-ppm 0', /must be more than 0/],
    ['--agent chlorine --label-ppm 200 --label-max-ppm 100', /below --label-ppm/],
    ['--agent chlorine --label our-sanitizer --label-ppm 100', /not both/],
    ['--agent chlorine --rules nowhere', /It can be: .*us-food-code/],
    ['--agent chlorine --label us-food-code', /It can be: our-quat, our-sanitizer/],
    ['--agent rinse --clear maybe', /It can be: yes, no/],
    ['--agent chlorine --color red', /There is no option --color/],
    ['--agent chlorine --ppm', /needs a value/],
    ['--agent chlorine --ppm 5 --ppm 6', /given twice/]
  ])('%s', (line, expected) => {
    const plain = judgeCommand(words(line))
    expect(plain).toMatchObject({ code: 2, out: '' })
    expect(plain.err).toMatch(expected)
    const json = judgeCommand([...words(line), '--json'])
    expect(json).toMatchObject({ code: 2, err: '' })
    expect(asJson(json.out)).toMatchObject({ error: { message: expect.stringMatching(expected) } })
  })
})

describe('from a shell', () => {
  const top = fileURLToPath(new URL('../..', import.meta.url))
  const npm = (...args: string[]) =>
    spawnSync('npm', ['run', '--silent', ...args], { cwd: top, encoding: 'utf8', timeout: 60_000 })

  it('mix prints JSON and nothing else', () => {
    const { stdout, status } = npm('mix', '--', ...words('--label-percent 8.25 --target-ppm 100 --volume-l 7.6 --json'))
    expect(status).toBe(0)
    expect(asJson(stdout)).toMatchObject({ refused: false, milliliters: expect.closeTo(9.2121, 3) })
  })

  it('judge ends with 2 for bad input', () => {
    const { stdout, status } = npm('judge', '--', '--agent', 'chlorine', '--ppm', '8,25', '--json')
    expect(status).toBe(2)
    expect(asJson(stdout)).toMatchObject({ error: { option: 'ppm' } })
  })
})
