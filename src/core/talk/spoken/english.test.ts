import fc from 'fast-check'
import { toCardinal as toWords } from 'n2words/en-US'
import { describe, expect, it, test } from 'vitest'
import { numberWordsEn } from '../number-words.en.ts'
import { speakableEn } from './english.ts'

/** Unit names are spelled as in NIST Handbook 44, Appendix C (from memory); how figures are read is common practice, no source. */
describe('what the voice gets', () => {
  test.each([
    // Volume
    ['1 gal', 'one gallon'],
    ['2 gal', 'two gallons'],
    ['2.5 gal', 'two point five gallons'],
    ['1 qt', 'one quart'],
    ['3 qt', 'three quarts'],
    ['1 pt', 'one pint'],
    ['1 fl oz', 'one fluid ounce'],
    ['64 fl oz', 'sixty four fluid ounces'],
    ['1 cup', 'one cup'],
    ['2 cups', 'two cups'],
    ['1 tbsp', 'one tablespoon'],
    ['2 tbsp', 'two tablespoons'],
    ['1 tsp', 'one teaspoon'],
    ['4 tsp', 'four teaspoons'],
    ['1 L', 'one liter'],
    ['7.6 L', 'seven point six liters'],
    ['0.5 L', 'zero point five liters'],
    ['120 mL', 'one hundred twenty milliliters'],
    ['120ml', 'one hundred twenty milliliters'],
    // Mass and length
    ['8 oz', 'eight ounces'],
    ['1 lb', 'one pound'],
    ['250 g', 'two hundred fifty grams'],
    ['1.2 kg', 'one point two kilograms'],
    ['5 mm', 'five millimeters'],
    ['1 cm', 'one centimeter'],
    // Strength
    ['100 ppm', 'one hundred parts per million'],
    ['1 ppm', 'one part per million'],
    ['1,250 ppm', 'one thousand two hundred fifty parts per million'],
    ['50 mg/L', 'fifty milligrams per liter'],
    ['5 mL/L', 'five milliliters per liter'],
    ['12.5 %', 'twelve point five percent'],
    ['5%', 'five percent'],
    ['pH 7', 'p H seven'],
    ['7.4 pH', 'seven point four p H'],
    ['pH between 6.5 and 8.5', 'p H between six point five and eight point five'],
    // Temperature
    ['43 C', 'forty three degrees Celsius'],
    ['1 °C', 'one degree Celsius'],
    ['110 °F', 'one hundred ten degrees Fahrenheit'],
    ['110F', 'one hundred ten degrees Fahrenheit'],
    ['-18 °C', 'minus eighteen degrees Celsius'],
    ['−5 C', 'minus five degrees Celsius'],
    ['90°', 'ninety degrees'],
    // Time
    ['20 s', 'twenty seconds'],
    ['1 s', 'one second'],
    ['5 min', 'five minutes'],
    ['1 min', 'one minute'],
    ['1 h', 'one hour'],
    ['1 h 30 min', 'one hour thirty minutes'],
    ['2 h 1 min', 'two hours one minute'],
    ['4 minutes 20 seconds', 'four minutes twenty seconds'],
    // Ranges
    ['100 to 200 ppm', 'one hundred to two hundred parts per million'],
    ['50-100 ppm', 'fifty to one hundred parts per million'],
    ['50–100 ppm', 'fifty to one hundred parts per million'],
    ['1 to 2 L', 'one to two liters'],
    ['-20 to -15 °C', 'minus twenty to minus fifteen degrees Celsius'],
    ['2-3 times', 'two to three times'],
    // Fractions
    ['1/2 tsp', 'half a teaspoon'],
    ['½ tsp', 'half a teaspoon'],
    ['1/4 tsp', 'one quarter of a teaspoon'],
    ['3/4 cup', 'three quarters of a cup'],
    ['2/3 cup', 'two thirds of a cup'],
    ['1/8 oz', 'one eighth of an ounce'],
    ['1/16 tsp', 'one sixteenth of a teaspoon'],
    ['1/2 h', 'half an hour'],
    ['1 1/2 cups', 'one and a half cups'],
    ['1½ cups', 'one and a half cups'],
    ['2 1/4 gal', 'two and one quarter gallons'],
    ['Use ¾ of it', 'Use three quarters of it'],
    ['Fill it 1/2 full', 'Fill it one half full'],
    // In sentences
    ['Round 2 of 4 at most.', 'Round two of four at most.'],
    ['Allowed: 100 ppm or more.', 'Allowed: one hundred parts per million or more.'],
    ['I need it in ppm.', 'I need it in parts per million.'],
    ['I need it in °F.', 'I need it in degrees Fahrenheit.'],
    [
      'Add 2 gal at 110 F, then wait 5 min.',
      'Add two gallons at one hundred ten degrees Fahrenheit, then wait five minutes.'
    ],
    ['A 10-minute soak.', 'A ten-minute soak.'],
    ['0 parts', 'zero parts'],
    ['1000000 drops', 'one zero zero zero zero zero zero drops'],
    // Compound units
    ['2 oz/gal', 'two ounces per gallon'],
    ['15 mL/min', 'fifteen milliliters per minute'],
    ['3 g / L', 'three grams per liter'],
    ['0.5 gpm', 'zero point five gallons per minute'],
    ['60 psi', 'sixty pounds per square inch'],
    ['1 psi', 'one pound per square inch'],
    ['I need it in oz/gal.', 'I need it in ounces per gallon.'],
    ['10 gpg', 'ten grains per gallon'],
    ['60 Hz', 'sixty hertz'],
    ['72 dB', 'seventy two decibels'],
    // Short forms of units
    ['2 hrs', 'two hours'],
    ['30 sec', 'thirty seconds'],
    ['5 min. soak', 'five minutes soak'],
    ['Wait 5 min.', 'Wait five minutes.'],
    ['Wait 5 min. Then rinse.', 'Wait five minutes. Then rinse.'],
    ['4 fl. oz.', 'four fluid ounces'],
    ['3 Tbsp', 'three tablespoons'],
    ['2 lbs', 'two pounds'],
    ['3 ft', 'three feet'],
    ['3/8 in.', 'three eighths inch'],
    ['2" wide', 'two inches wide'],
    ['The sign says "level 2" here', 'The sign says "level two" here'],
    ['.5 L', 'zero point five liters'],
    // More temperatures
    ['43 °C (110 °F)', 'forty three degrees Celsius, one hundred ten degrees Fahrenheit'],
    ['110 º F', 'one hundred ten degrees Fahrenheit'],
    ['110 degrees F', 'one hundred ten degrees Fahrenheit'],
    ['between 38 °C and 49 °C', 'between thirty eight degrees Celsius and forty nine degrees Celsius'],
    ['165 °F or more', 'one hundred sixty five degrees Fahrenheit or more'],
    // More ranges
    ['50 ppm to 100 ppm', 'fifty to one hundred parts per million'],
    ['5 mL to 1 L', 'five milliliters to one liter'],
    ['1/4-1/2 tsp', 'one quarter to half a teaspoon'],
    ['1/4 to 1/2 cup', 'one quarter to half a cup'],
    ['41–45 °F', 'forty one to forty five degrees Fahrenheit'],
    ['2 – 3 min', 'two to three minutes'],
    ['1.5 to 2.5 L', 'one point five to two point five liters'],
    // More fractions
    ['1-1/2 cups', 'one and a half cups'],
    ['⅜ in.', 'three eighths inch'],
    ['1/3 cup', 'one third of a cup'],
    ['5/8 inch', 'five eighths inch'],
    ['1/2-inch hose', 'one half inch hose'],
    ['A 1/2-full pail', 'A one half full pail'],
    ['1/10 of it', 'one tenth of it'],
    // Times of day
    ['6:05 AM', 'six oh five A M'],
    ['6:00 AM', 'six A M'],
    ['11:59 PM', 'eleven fifty nine P M'],
    ['6 a.m.', 'six A M.'],
    ['at 6 p.m. Start', 'at six P M. Start'],
    ['by 6pm', 'by six P M'],
    ['14:30', 'fourteen thirty'],
    ['6:00', "six o'clock"],
    ['14:00', 'fourteen hundred'],
    ['Ready by 6:05 AM, in 12 minutes.', 'Ready by six oh five A M, in twelve minutes.'],
    // Durations with a colon
    ['1:30 min', 'one minute thirty seconds'],
    ['2:00 min', 'two minutes'],
    // Ratios
    ['1:128 dilution', 'one to one hundred twenty eight dilution'],
    ['Dilute 1:64.', 'Dilute one to sixty four.'],
    ['a ratio of 1 : 50', 'a ratio of one to fifty'],
    ['Score 1:75', 'Score one to seventy five'],
    // Dates and ordinals
    ['2026-11-28', 'November twenty eighth, twenty twenty six'],
    ['2009-01-01', 'January first, two thousand nine'],
    ['1995-05-12', 'May twelfth, nineteen ninety five'],
    ['1st rinse', 'first rinse'],
    ['2nd rinse', 'second rinse'],
    ['3rd', 'third'],
    ['12th', 'twelfth'],
    ['20th', 'twentieth'],
    ['21st', 'twenty first'],
    ['100th', 'one hundredth'],
    // Signs
    ['≥ 100 ppm', 'at least one hundred parts per million'],
    ['<= 8', 'at most eight'],
    ['< 5 min', 'less than five minutes'],
    ['> 41 °F', 'more than forty one degrees Fahrenheit'],
    ['~10 min', 'about ten minutes'],
    ['50 ± 5 ppm', 'fifty plus or minus five parts per million'],
    ['5+ min', 'at least five minutes'],
    ['2 x 5 min', 'two by five minutes'],
    ['3× rinse', 'three times rinse'],
    ['10 × 20 cm', 'ten by twenty centimeters'],
    ['salt & sugar', 'salt and sugar'],
    ['A + B', 'A plus B'],
    ['#3', 'number three'],
    ['No. 12', 'number twelve'],
    ['soap/water', 'soap water'],
    ['and/or', 'and or'],
    // Short forms
    ['approx. 5 min', 'about five minutes'],
    ['e.g. the whisk', 'for example the whisk'],
    ['i.e., the left one', 'that is the left one'],
    ['Pads, cloths, etc.', 'Pads, cloths, and so on.'],
    ['max. 5 min', 'maximum five minutes'],
    ['min. 100 ppm', 'minimum one hundred parts per million'],
    ['Max: 8', 'maximum: eight'],
    ['temp. of the water', 'temperature of the water'],
    ['w/o gloves', 'without gloves'],
    ['w/ gloves', 'with gloves'],
    ['qty. 4', 'quantity four'],
    ['left vs. right', 'left versus right'],
    ['Wear PPE.', 'Wear P P E.'],
    ['The SDS says so.', 'The S D S says so.'],
    ['QAC', 'Q A C'],
    ['DO NOT TOUCH', 'DO NOT TOUCH'],
    ['The O-ring', 'The O ring'],
    // Codes of parts
    ['X-204', 'X two zero four'],
    ['DV-7B', 'D V seven B'],
    ['P/N 00123-A', 'P/N zero zero one two three A'],
    ['Seal 12B', 'Seal twelve B'],
    ['24-hour', 'twenty four-hour'],
    ['A 2-sided machine', 'A two-sided machine'],
    // Only for the eye
    ['**Close** the `valve` 🚰 now', 'Close the valve now'],
    ['<b>Stop</b> here', 'Stop here'],
    ['[Read this](https://example.test/a) first', 'Read this first'],
    ['See https://example.test/a?b=1 first', 'See the web address shown first'],
    ['Wait … then go', 'Wait. then go'],
    ['Rinse — then drain', 'Rinse, then drain'],
    ['“Closed” and ‘open’', '"Closed" and \'open\''],
    ['👍🏽 ⚠️ 🇲🇽', ''],
    ['- Rinse it', 'Rinse it'],
    ['a\u200Bb\u0007 c', 'a b c'],
    // What is no amount stays as it is
    ['Use brush A2.', 'Use brush A two.'],
    ['At 6:05 rinse.', 'At six oh five rinse.'],
    ['Mix it 1:10.', 'Mix it one to ten.'],
    ['Version 3.5.2', 'Version three point five point two'],
    ['Open 24/7.', 'Open twenty four seven.'],
    ['Part 16/8', 'Part 16/8'],
    ['Left. Close the draw valve.', 'Left. Close the draw valve.'],
    ['', '']
  ])('%s', (written, spoken) => {
    expect(speakableEn(written)).toBe(spoken)
  })

  it('leaves no digit before a known unit', () => {
    const units = [
      'gal',
      'qt',
      'fl oz',
      'tbsp',
      'tsp',
      'mL',
      'L',
      '°C',
      '°F',
      'ppm',
      'mg/L',
      'min',
      'h',
      's',
      '%',
      'pH'
    ]
    const anyNumeral = fc.oneof(
      fc.nat(5000).map(String),
      fc.tuple(fc.nat(500), fc.nat(99)).map(([whole, part]) => `${whole}.${part}`)
    )
    fc.assert(
      fc.property(anyNumeral, fc.constantFrom(...units), fc.constantFrom('', ' '), (numeral, unit, space) => {
        expect(speakableEn(`Take ${numeral}${space}${unit}, then stop.`)).toMatch(
          /^Take [a-z]+[A-Za-z ]*, then stop\.$/
        )
      })
    )
  })

  it('changes nothing the second time', () => {
    fc.assert(
      fc.property(fc.nat(2000), fc.constantFrom('ppm', 'min', 'L', '°F'), (amount, unit) => {
        const once = speakableEn(`Left. ${amount} ${unit}. Is that so?`)
        expect(speakableEn(once)).toBe(once)
      })
    )
  })
})

describe('numbers', () => {
  /** n2words, a library for writing numbers out. */
  const reference = (numeral: string) => toWords(numeral).replaceAll('-', ' ').replaceAll(' and ', ' ')

  it('are those of the reference up to ten thousand', () => {
    for (let value = 0; value <= 10_000; value += 1) {
      expect(numberWordsEn(String(value))).toBe(reference(String(value)))
    }
  })

  it('are those of the reference up to a million', () => {
    fc.assert(
      fc.property(fc.integer({ min: 10_000, max: 999_999 }), (value) => {
        expect(numberWordsEn(String(value))).toBe(reference(String(value)))
      })
    )
  })
})

describe("a shop's own pronunciations", () => {
  const OWN = [
    { written: 'Quatrex', spoken: 'kwah trex' },
    { written: 'DV-7B', spoken: 'the draw valve' },
    { written: 'DV', spoken: 'draw valve' }
  ]

  test.each([
    ['Use Quatrex now.', 'Use kwah trex now.'],
    ['use QUATREX', 'use kwah trex'],
    ['Close DV-7B and DV.', 'Close the draw valve and draw valve.'],
    ['ADVICE', 'ADVICE']
  ])('%s', (written, spoken) => {
    expect(speakableEn(written, OWN)).toBe(spoken)
  })
})

it('says any text at all without figures, markup or pictures left in it', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme', maxLength: 200 }), (text) => {
      expect(speakableEn(text)).not.toMatch(/\p{Extended_Pictographic}|\p{Cc}|[*`{}<>]{2,}/u)
    })
  )
})
