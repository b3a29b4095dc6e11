import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { inUnits, speakable } from './quantities.ts'

describe('amounts in two systems', () => {
  test.each([
    ['Fill in {7.6 L | 2 gal}.', 'Fill in 7.6 L.', 'Fill in 2 gal.'],
    ['{120 mL|4 fl oz} at {43 C | 110 F}', '120 mL at 43 C', '4 fl oz at 110 F'],
    ['Nothing to choose.', 'Nothing to choose.', 'Nothing to choose.'],
    ['{ 1 L | 1 qt }', '1 L', '1 qt']
  ])('%s', (written, metric, us) => {
    expect(inUnits(written, 'metric')).toBe(metric)
    expect(inUnits(written, 'us')).toBe(us)
  })
})

/** Unit names are spelled as in NIST Handbook 44, Appendix C (from memory); how numbers and fractions are read is common practice, no source. */
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
    // What is no amount stays as it is
    ['Use brush A2.', 'Use brush A2.'],
    ['At 6:05 rinse.', 'At 6:05 rinse.'],
    ['Mix it 1:10.', 'Mix it 1:10.'],
    ['Version 3.5.2', 'Version 3.5.2'],
    ['Open 24/7.', 'Open 24/7.'],
    ['Part 16/8', 'Part 16/8'],
    ['Left. Close the draw valve.', 'Left. Close the draw valve.'],
    ['', '']
  ])('%s', (written, spoken) => {
    expect(speakable(written)).toBe(spoken)
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
        expect(speakable(`Take ${numeral}${space}${unit}, then stop.`)).toMatch(/^Take [a-z]+[A-Za-z ]*, then stop\.$/)
      })
    )
  })

  it('changes nothing the second time', () => {
    fc.assert(
      fc.property(fc.nat(2000), fc.constantFrom('ppm', 'min', 'L', '°F'), (amount, unit) => {
        const once = speakable(`Left. ${amount} ${unit}. Is that so?`)
        expect(speakable(once)).toBe(once)
      })
    )
  })
})
