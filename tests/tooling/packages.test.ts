/** What we take from others: exactly which version, from nowhere in particular, and under which licence. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'

const top = join(import.meta.dirname, '../..')
const read = (path: string): unknown => JSON.parse(readFileSync(join(top, path), 'utf8'))

interface Locked {
  readonly version: string
  readonly license?: string
  readonly dev?: boolean
  readonly devOptional?: boolean
  readonly optional?: boolean
  readonly resolved?: string
}

const { dependencies, devDependencies } = read('package.json') as Record<string, Record<string, string>>
const direct = Object.entries({ ...dependencies, ...devDependencies })
const { packages } = read('package-lock.json') as { packages: Record<string, Locked> }
const locked = Object.entries(packages).filter(([place]) => place !== '')

/**
 * SPDX names (spdx.org/licenses) that ask for no more than their notice. Letters under the OFL carry it inside, and are
 * not to be sold by themselves.
 */
const PERMISSIVE = new Set([
  'MIT',
  'MIT-0',
  'ISC',
  'Apache-2.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'BSD-4-Clause',
  '0BSD',
  'BlueOak-1.0.0',
  'CC0-1.0',
  'CC-BY-3.0',
  'CC-BY-4.0',
  'OFL-1.1',
  'Unlicense',
  'Python-2.0'
])
/** Files under it stay under it, which binds nobody who only uses the tool. */
const TOOLS_ONLY = new Set(['MPL-2.0'])

function isFine(licence: string, isTool: boolean): boolean {
  const plain = licence.replaceAll(/[()]/g, '')
  return plain
    .split(' OR ')
    .some((choice) => choice.split(' AND ').every((one) => PERMISSIVE.has(one) || (isTool && TOOLS_ONLY.has(one))))
}

describe('packages', () => {
  it('are asked for by exact version', () => {
    expect(direct.length).toBeGreaterThan(0)
    expect(direct.filter(([, version]) => !/^(npm:[a-z0-9@/-]+@)?\d+\.\d+\.\d+$/.test(version))).toEqual([])
  })

  it('are locked without the address they came from', () => {
    expect(locked.filter(([, { resolved }]) => resolved !== undefined)).toEqual([])
  })

  it('are installed under a permissive licence, by their own account', () => {
    expect(locked.length).toBeGreaterThan(direct.length)
    const doubtful = locked.filter(
      ([, { license, dev, devOptional }]) => !isFine(license ?? 'none', Boolean(dev ?? devOptional))
    )
    expect(doubtful.map(([place, { license }]) => `${place}: ${license}`)).toEqual([])
  })
})

describe('the judgement of licences', () => {
  it.each([
    ['MIT', false, true],
    ['(MIT OR GPL-3.0)', false, true],
    ['MIT AND GPL-3.0', false, false],
    ['MPL-2.0', true, true],
    ['MPL-2.0', false, false],
    ['none', true, false]
  ])('%s, a tool: %s', (licence, isTool, fine) => {
    expect(isFine(licence, isTool)).toBe(fine)
  })
})
