import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { aCourse, aProcedure, EVERYTHING } from '../../../tests/helpers/a-procedure.ts'
import { layOut, type Course } from '../procedure/course.ts'
import { hear, type Expecting, type Hearing } from './hear.ts'
import { PLAIN_INTENTS, type Intent } from './intent.ts'
import { tokens } from './tokens.ts'
import { vocabularyEn } from './vocabulary.en.ts'

const TWO_SIDES = layOut(aProcedure(EVERYTHING))
const CALM: Expecting = { course: TWO_SIDES, language: 'en', phrase: null, numbers: false, steps: false, yesNo: false }
const YES_NO: Expecting = { ...CALM, yesNo: true }
const NUMBERS: Expecting = { ...CALM, numbers: true }

function named(...sides: readonly string[]): Course {
  const list = sides.map((name, index) => `{id: side-${index}, name: ${name}}`).join(', ')
  return layOut(
    aProcedure(`procedure: t
title: T
summary: S
languages: [en]
machine: M
sides: [${list}]
stages: [{stage: A, steps: [{step: a, say: Go., hands: 1 s}, {step: b, on: bench, say: Go., hands: 1 s}, {step: c, on: whole machine, say: Go., hands: 1 s}]}]`)
  )
}

/** `done`, `lane left`, `150 [ppm]`, `repeat or take-back`, `unknown`. */
function brief(hearing: Hearing): string {
  const one = (intent: Intent) =>
    intent.type === 'lane'
      ? `lane ${intent.lane}`
      : intent.type === 'number'
        ? `${intent.value} ${intent.unit ?? ''}`.trim()
        : intent.type
  switch (hearing.kind) {
    case 'meant':
      return one(hearing.intent)
    case 'ambiguous':
      return hearing.between.map(one).join(' or ')
    case 'unknown':
      return 'unknown'
  }
}

const heard = (words: string, expecting = CALM) => brief(hear([words], vocabularyEn, expecting))

const everyPhrase = PLAIN_INTENTS.flatMap((type) => vocabularyEn.phrases[type].map((phrase) => ({ type, phrase })))

describe('the vocabulary', () => {
  test.each(everyPhrase)('"$phrase" is $type and nothing else', ({ type, phrase }) => {
    for (const expecting of [CALM, YES_NO, NUMBERS]) expect(heard(phrase, expecting)).toBe(type)
  })

  it('has no phrase for two intents, and none that is ambiguous elsewhere', () => {
    const all = [...everyPhrase.map(({ phrase }) => phrase), ...Object.keys(vocabularyEn.ambiguous)]
    expect(all.filter((phrase, index) => all.indexOf(phrase) < index)).toEqual([])
  })

  it('begins each intent with its surest phrase, of two words where there is one', () => {
    expect(PLAIN_INTENTS.filter((type) => vocabularyEn.phrases[type].length === 0)).toEqual([])
    const twoWords = PLAIN_INTENTS.filter((type) => tokens(vocabularyEn.phrases[type][0] ?? '').length >= 2)
    expect(twoWords).toEqual(
      expect.arrayContaining(['done', 'next', 'repeat', 'take-back', 'pause', 'resume', 'how-long'])
    )
  })

  test.each([
    [['Left', 'Right']],
    [['Front', 'Rear']],
    [['Still', 'Sparkling']],
    [['Line 1', 'Line 2', 'Line 3']],
    [['North', 'East', 'South', 'West']],
    [['Machine']]
  ])('collides with no way to name a lane of %j', (sides) => {
    const expecting = { ...CALM, course: named(...sides) }
    for (const { type, phrase } of everyPhrase) expect(heard(phrase, expecting)).toBe(type)
  })
})

describe('lanes', () => {
  test.each([
    ['left', 'lane left'],
    ['Left side.', 'lane left'],
    ['the left side', 'lane left'],
    ['go left', 'lane left'],
    ['Go to the right side, please.', 'lane right'],
    ['right', 'lane right'],
    ['right side', 'lane right'],
    ['bench', 'lane bench'],
    ['go to the sink', 'lane bench'],
    ['the bench', 'lane bench'],
    ['whole machine', 'lane machine'],
    ['go to the machine', 'lane machine'],
    ['both sides', 'lane machine'],
    ['middle', 'unknown'],
    ['left right', 'unknown'],
    ['not left', 'unknown'],
    ['right now', 'unknown'],
    ['left over', 'unknown']
  ])('"%s" is %s', (words, expected) => {
    expect(heard(words)).toBe(expected)
  })

  it('knows sides by other names only', () => {
    const expecting = { ...CALM, course: named('Still', 'Line 2') }
    expect(heard('still side', expecting)).toBe('lane side-0')
    expect(heard('line two', expecting)).toBe('lane side-1')
    expect(heard('go to line 2', expecting)).toBe('lane side-1')
    expect(heard('left', expecting)).toBe('unknown')
  })

  it('asks when a side has the name of a command', () => {
    const expecting = { ...CALM, course: named('Front', 'Back') }
    expect(heard('go back', expecting)).toBe('lane side-1 or take-back')
    expect(heard('back side', expecting)).toBe('lane side-1')
    expect(heard('back', expecting)).toBe('lane side-1')
    expect(heard('undo', expecting)).toBe('take-back')
  })

  it('has no bench or machine where no step is there', () => {
    const course = aCourse('  - {stage: A, steps: [{step: a, say: Go., hands: 1 s}]}')
    expect(heard('bench', { ...CALM, course })).toBe('unknown')
    expect(heard('machine', { ...CALM, course })).toBe('unknown')
  })
})

describe('words that could mean two things', () => {
  test.each([
    ['stop', 'pause or problem'],
    ['Stop!', 'pause or problem'],
    ['back', 'take-back or repeat'],
    ['again', 'repeat or take-back'],
    ['okay', 'yes or done'],
    ['OK', 'yes or done'],
    ['right', 'lane right'],
    ['okay, right', 'lane right or yes or done'],
    ['right, okay', 'lane right or yes or done'],
    ['right please', 'lane right']
  ])('"%s" with nothing asked is %s', (words, expected) => {
    expect(heard(words)).toBe(expected)
  })

  test.each([
    ['okay', 'yes'],
    ['right', 'lane right or yes'],
    ['right side', 'lane right'],
    ["that's right", 'yes'],
    ['left', 'lane left'],
    ['stop', 'pause or problem'],
    ['back', 'take-back or repeat']
  ])('"%s" with a yes or no open is %s', (words, expected) => {
    expect(heard(words, YES_NO)).toBe(expected)
  })

  it('is an answer where no side is called right', () => {
    const expecting = { ...CALM, course: named('Front', 'Rear') }
    expect(heard('right', expecting)).toBe('yes or done')
    expect(heard('right', { ...expecting, yesNo: true })).toBe('yes')
  })
})

describe('the way recognisers write', () => {
  test.each([
    ['Done.', 'done'],
    ['All done!', 'done'],
    ['ALL DONE', 'done'],
    ['all-done', 'done'],
    ['  all   done  ', 'done'],
    ['Next step!', 'next'],
    ['Hold on,', 'pause'],
    ['Hold on…', 'pause'],
    ['How long?', 'how-long'],
    ['What now?', 'what-now'],
    ['I’m done.', 'done'],
    ["That's right!", 'yes'],
    ['"Say again"', 'repeat'],
    ['Yes, it is.', 'yes'],
    ['No. It is not.', 'no']
  ])('"%s" is %s', (words, expected) => {
    expect(heard(words)).toBe(expected)
  })

  test.each([
    ['okay done', 'done'],
    ['um, next step please', 'next'],
    ['and now next', 'next'],
    ['so say again', 'repeat'],
    ['hey, help', 'help'],
    ['yes please', 'yes'],
    ['okay, um', 'yes or done'],
    ['please', 'unknown'],
    ['um', 'unknown'],
    ['', 'unknown'],
    ['...', 'unknown']
  ])('"%s" with filler is %s', (words, expected) => {
    expect(heard(words)).toBe(expected)
  })

  test.each([
    'not done',
    'nearly done',
    'done yet',
    'are you done',
    "I'm not done",
    'never mind next',
    'next week',
    'no problem',
    'yes no',
    'done next',
    'carry the tray',
    'hold the tray',
    'go on break',
    'come back later',
    'say what',
    'constructor',
    '__proto__',
    'toString'
  ])('does not pick a command out of "%s"', (words) => {
    expect(heard(words)).toBe('unknown')
    expect(heard(words, YES_NO)).toBe('unknown')
  })
})

describe('alternatives', () => {
  const first = (...words: readonly string[]) => brief(hear(words, vocabularyEn, CALM))

  it('takes the first that means something', () => {
    expect(first('all dumb', 'all done', 'hold on')).toBe('done')
    expect(first('hold on', 'all done')).toBe('pause')
  })

  it('does not prefer a less likely command to a likelier doubt', () => {
    expect(first('stop', 'done')).toBe('pause or problem')
  })

  it('says what was heard best when nothing means anything', () => {
    expect(hear(['blah', 'bleh'], vocabularyEn, CALM)).toEqual({ kind: 'unknown', words: 'blah' })
    expect(hear([], vocabularyEn, CALM)).toEqual({ kind: 'unknown', words: '' })
  })
})

describe('confirming phrases', () => {
  const expecting = { ...CALM, phrase: 'power is off' }
  test.each([
    ['Power is off.', 'phrase'],
    ['okay, power is off', 'phrase'],
    ['power is on', 'unknown'],
    ['power off', 'unknown'],
    ['the power is not off', 'unknown'],
    ['is power off', 'unknown'],
    ['done', 'done']
  ])('"%s" is %s', (words, expected) => {
    expect(heard(words, expecting)).toBe(expected)
  })

  it('means nothing at other steps', () => {
    expect(heard('power is off')).toBe('unknown')
  })
})

describe('numbers', () => {
  test.each([
    ['150', '150'],
    ['150.', '150'],
    ['one hundred fifty', '150'],
    ['One hundred and fifty ppm.', '150 [ppm]'],
    ['150ppm', '150 [ppm]'],
    ['150 parts per million', '150 [ppm]'],
    ['one fifty p p m', '150 [ppm]'],
    ["it's 150", '150'],
    ['it reads one fifty', '150'],
    ['um, 150 please', '150'],
    ['1,250 ppm', '1250 [ppm]'],
    ['pH 7.4', '7.4 [pH]'],
    ['p h seven point four', '7.4 [pH]'],
    ['seven point four pH', '7.4 [pH]'],
    ['p.h. 7.4', '7.4 [pH]'],
    ['75°', '75'],
    ['75 °F', '75 [degF]'],
    ['75°F', '75 [degF]'],
    ['seventy five degrees', '75'],
    ['75 degrees Fahrenheit', '75 [degF]'],
    ['4 degrees celsius', '4 Cel'],
    ['-18 °C', '-18 Cel'],
    ['minus eighteen degrees', '-18'],
    ['.5', '0.5'],
    ['point five', '0.5'],
    ['one hundred and', 'unknown'],
    ['five and', 'unknown'],
    ['and five', 'unknown'],
    ['one or two', 'unknown'],
    ['1-2', 'unknown'],
    ['7,5', 'unknown'],
    ['1:50', 'unknown'],
    ['150 percent', 'unknown'],
    ['150 or so', 'unknown'],
    ['ppm', 'unknown'],
    ['oh', 'unknown'],
    ['done', 'done'],
    ['how long', 'how-long']
  ])('"%s" where one is asked for is %s', (words, expected) => {
    expect(heard(words, NUMBERS)).toBe(expected)
  })

  test.each(['150', 'one', 'seven point four', '75 degrees', 'two'])(
    '"%s" means nothing where none is asked for',
    (words) => {
      expect(heard(words)).toBe('unknown')
      expect(heard(words, YES_NO)).toBe('unknown')
    }
  )

  it('is a number before it is a side of that name', () => {
    const course = named('One', 'Two')
    expect(heard('two', { ...CALM, course })).toBe('lane side-1')
    expect(heard('two', { ...NUMBERS, course })).toBe('2')
    expect(heard('side two', { ...NUMBERS, course })).toBe('unknown')
    expect(heard('two side', { ...NUMBERS, course })).toBe('lane side-1')
  })
})

describe('any words at all', () => {
  const known = new Set([
    ...everyPhrase.map(({ phrase }) => tokens(phrase).join(' ')),
    ...Object.keys(vocabularyEn.ambiguous),
    ...['left', 'right', 'bench', 'sink', 'machine', 'whole machine', 'both sides'].flatMap((name) =>
      vocabularyEn.lanePatterns.map((pattern) => pattern.replace('$', name))
    )
  ])
  const { before, after } = vocabularyEn.filler
  /** What is left once filler is taken off either end, one word at a time: every way to take it off. */
  function lessFiller(words: readonly string[]): readonly string[] {
    const less = [
      ...(before.includes(words[0] ?? '') ? lessFiller(words.slice(1)) : []),
      ...(after.includes(words.at(-1) ?? '') ? lessFiller(words.slice(0, -1)) : [])
    ]
    return [words.join(' '), ...less]
  }
  const spoken = [...new Set([...known].flatMap((phrase) => phrase.split(' ')))]
  const anyWord = fc.oneof(
    { weight: 5, arbitrary: fc.constantFrom(...spoken, ...before) },
    { weight: 1, arbitrary: fc.stringMatching(/^[a-z']{1,8}$/) },
    { weight: 1, arbitrary: fc.string({ maxLength: 6, unit: 'grapheme' }) }
  )

  it('never become a command that the vocabulary does not have', () => {
    fc.assert(
      fc.property(fc.array(anyWord, { maxLength: 5 }), fc.boolean(), (words, yesNo) => {
        const said = words.join(' ')
        const hearing = hear([said], vocabularyEn, { ...CALM, yesNo })
        const isKnown = lessFiller(tokens(said)).some((core) => known.has(core))
        expect({ said, understood: hearing.kind !== 'unknown' }).toEqual({ said, understood: isKnown })
      }),
      { numRuns: 2000 }
    )
  })
})
