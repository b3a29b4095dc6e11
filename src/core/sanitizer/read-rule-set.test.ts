import { describe, expect, it, test } from 'vitest'
import { readRuleSet } from './read-rule-set.ts'

const GOOD = `rules: our-county
kind: jurisdiction
title: Our county
limits:
  - for: chlorine
    limit: solution
    any of:
      - { strength: at least 50 ppm, pH: at most 8, temperature: at least 24 C / 75 F }
    source: County code 12
    edition: '2024'
    status: read
  - for: chlorine
    limit: contact time
    any of:
      - time: at least 2 min
    source: County code 12
    edition: '2024'
    status: memory
duties:
  - say: Take the machine apart.
    every: 14 days
    source: County code 13
    edition: '2024'
    status: secondary
`

const problemsIn = (text: string) => {
  const read = readRuleSet(text)
  return read.kind === 'faulty' ? read.problems.map(({ line, what }) => `${line}: ${what}`) : []
}
const mendsIn = (text: string) => {
  const read = readRuleSet(text)
  return read.kind === 'faulty' ? read.problems.map(({ mend }) => mend) : []
}

describe('a rule set', () => {
  it('is read with its bounds, its sources and how sure they are', () => {
    expect(readRuleSet(GOOD)).toMatchObject({
      kind: 'read',
      ruleSet: {
        id: 'our-county',
        otherwise: null,
        product: null,
        limits: [
          {
            subject: 'chlorine',
            aspect: 'solution',
            rows: [
              [
                { quantity: 'ppm', min: 50, max: null },
                { quantity: 'temperature', C: { min: 24, max: null }, F: { min: 75, max: null } },
                { quantity: 'ph', min: null, max: 8 }
              ]
            ],
            source: 'County code 12',
            status: 'read'
          },
          { aspect: 'contact', rows: [[{ quantity: 'seconds', min: 120, max: null }]], status: 'memory' }
        ],
        duties: [{ say: 'Take the machine apart.', everySeconds: 1_209_600 }]
      }
    })
  })

  test.each([
    ['at least 24 C / 75 F', { C: { min: 24, max: null }, F: { min: 75, max: null } }],
    ['at least 171 F', { C: null, F: { min: 171, max: null } }],
    ['at most 5 C', { C: { min: null, max: 5 }, F: null }],
    ['43 to 49 C / 110 to 120 F', { C: { min: 43, max: 49 }, F: { min: 110, max: 120 } }],
    ['at most -18 C / -0.4 F', { C: { min: null, max: -18 }, F: { min: null, max: -0.4 } }]
  ])('has a temperature of %s', (written, demand) => {
    const read = readRuleSet(GOOD.replace('at least 24 C / 75 F', written))
    if (read.kind === 'faulty') throw new Error(JSON.stringify(read.problems))
    expect(read.ruleSet.limits[0]?.rows[0]).toContainEqual({ quantity: 'temperature', ...demand })
  })
})

describe('a faulty rule set says where and what', () => {
  test.each([
    ['status: read', 'status: sure', '11: Limit 1: "status" is "sure", which cannot be used.'],
    ['    source: County code 12\n    edition', '    edition', '5: Limit 1: "source" is missing.'],
    ['at least 50 ppm', '50 ppm', '8: Limit 1: "any of", entry 1, "strength" is "50 ppm", which cannot be used.'],
    [
      'at least 50 ppm',
      'at least 50',
      '8: Limit 1: "any of", entry 1, "strength" is "at least 50", which cannot be used.'
    ],
    ['at least 50 ppm', 'at least 8,25 ppm', /^8: /],
    ['at least 24 C / 75 F', 'at least 24 C / 95 F', '8: Limit 1: "temperature" says two different temperatures.'],
    ['at least 24 C / 75 F', '43 to 49 C / 110 F', /^8: .*"temperature" is "43 to 49 C/],
    ['at least 50 ppm', '200 to 100 ppm', '8: Limit 1 has its bounds swapped.'],
    ['limit: solution', 'limit: temperature', '6: Limit 1: "limit" does not fit chlorine.'],
    ['limit: contact time', 'limit: solution', /: Limit 2.*stands here a second time/],
    ['- time: at least 2 min', '- strength: at least 50 ppm', '15: Limit 2 has no time.'],
    ['- time: at least 2 min', '- {}', '15: Limit 2: "any of", entry 1 is empty.'],
    [
      '- time: at least 2 min',
      '- { time: at least 2 min, hardness: at most 5 mg/L }',
      /"hardness" has no meaning in contact time/
    ],
    ['    any of:\n      - time: at least 2 min\n', '', '12: Limit 2 has no rows.'],
    ['every: 14 days', 'every: fortnight', '21: Duty 1: "every" is "fortnight", which cannot be used.'],
    ['kind: jurisdiction', 'kind: jurisdiction\notherwise: our-county', '3: "otherwise" names the rule set itself.'],
    ['kind: jurisdiction', 'kind: jurisdiction\ncolor: red', '3: "color" is not a key that can be used here.'],
    ['rules: our-county', 'rules: Our County', '1: "rules" is "Our County", which cannot be used.'],
    ['title: Our county', 'title: Our county\ntitle: Again', '4: The key "title" stands here a second time.'],
    ['title: Our county', 'title: &a Our county', '3: There is a YAML anchor (&) or alias (*) here.']
  ])('%j for %j', (good, bad, expected) => {
    expect(GOOD).toContain(good)
    const problems = problemsIn(GOOD.replace(good, bad))
    if (typeof expected === 'string') expect(problems[0]).toContain(expected)
    else expect(problems.join('\n')).toMatch(expected)
  })

  it('when it is empty, a list, huge or has no limits', () => {
    expect(problemsIn('')).toEqual(['1: The file is empty.'])
    expect(problemsIn('- a')[0]).toBeDefined()
    expect(problemsIn('x'.repeat(1_000_001))).toEqual(['null: The file is larger than 1 MB.'])
    expect(problemsIn('rules: a\nkind: label\ntitle: A')).toEqual(['1: The file has neither limits nor duties.'])
  })

  it('and how to mend it, naming its own page and examples', () => {
    expect(mendsIn(GOOD.replace('title: Our county\n', ''))).toEqual([
      'Add it, for example title: Food code of our county'
    ])
    expect(mendsIn(`${GOOD}color: red\n`)[0]).toContain('procedures/rules/README.md')
  })
})

describe('a cap', () => {
  const CAP = GOOD.replace('limit: solution', 'limit: no-rinse cap').replace(
    '{ strength: at least 50 ppm, pH: at most 8, temperature: at least 24 C / 75 F }',
    '{ strength: at most 200 ppm }'
  )

  it('is a most', () => {
    expect(readRuleSet(CAP).kind).toBe('read')
    expect(problemsIn(CAP.replace('at most 200', 'at least 200'))[0]).toContain('is no cap.')
  })
})

describe('the product of a label', () => {
  const LABEL = (product: string) => `${GOOD.replace('kind: jurisdiction', 'kind: label')}product: ${product}\n`

  test.each([
    ['{ agent: chlorine, form: liquid, percent: 8.25 }', { convention: 'unstated', density: null }],
    [
      '{ agent: chlorine, form: liquid, percent: 8.25, convention: weight, density: 1.1 }',
      { convention: 'weight', density: 1.1 }
    ],
    ['{ agent: chlorine, form: powder, percent: 65 }', { form: 'powder', percent: 65 }],
    ['{ agent: chlorine, form: tablet, milligrams: 500 }', { form: 'tablet', milligrams: 500 }]
  ])('%s', (written, product) => {
    expect(readRuleSet(LABEL(written))).toMatchObject({ kind: 'read', ruleSet: { product } })
  })

  test.each([
    ['{ agent: chlorine, form: liquid }', 'lacks percent'],
    ['{ agent: chlorine, form: tablet, percent: 5, milligrams: 5 }', '"percent" has no meaning for a tablet.'],
    ['{ agent: chlorine, form: powder, percent: 65, density: 1 }', '"density" has no meaning for a powder.'],
    ['{ agent: chlorine, form: liquid, percent: 0 }', 'is 0, which cannot be used.'],
    ['{ agent: chlorine, form: liquid, percent: 101 }', 'is 101, which cannot be used.'],
    ['{ agent: chlorine, form: liquid, percent: "8,25" }', 'is "8,25", which cannot be used.'],
    ['{ agent: acid, form: liquid, percent: 5 }', 'is "acid", which cannot be used.']
  ])('%s: %s', (written, expected) => {
    expect(problemsIn(LABEL(written))[0]).toContain(expected)
  })

  it('does not stand in a jurisdiction', () => {
    expect(problemsIn(`${GOOD}product: { agent: chlorine, form: powder, percent: 65 }\n`)[0]).toContain(
      '"product" belongs to a label'
    )
  })
})
