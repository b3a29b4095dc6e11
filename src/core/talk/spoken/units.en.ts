/** Names as NIST Handbook 44, Appendix C spells them (liter, gallon, fluid ounce, degree Celsius); from memory. */
import type { UnitWords } from './spoken-language.ts'

const named = (one: string, many: string, ...written: readonly string[]): readonly (readonly [string, UnitWords])[] =>
  written.map((sign) => [sign, { one, many }])
const plural = (one: string, ...written: readonly string[]) => named(one, `${one}s`, ...written)

export const unitsEn: Readonly<Record<string, UnitWords>> = Object.fromEntries([
  ...plural('fluid ounce', 'fl oz', 'fl. oz', 'fl. oz.', 'floz'),
  ...plural('gallon', 'gal', 'gals'),
  ...plural('quart', 'qt', 'qts'),
  ...plural('pint', 'pt', 'pts'),
  ...plural('cup', 'cup', 'cups'),
  ...plural('tablespoon', 'tbsp', 'Tbsp', 'tbs'),
  ...plural('teaspoon', 'tsp'),
  ...plural('ounce', 'oz'),
  ...plural('pound', 'lb', 'lbs'),
  ...plural('kilogram', 'kg'),
  ...plural('gram', 'g'),
  ...plural('milligram', 'mg'),
  ...plural('milliliter', 'mL', 'ml'),
  ...plural('liter', 'L', 'l'),
  ...named('degree Celsius', 'degrees Celsius', '°C', '° C', 'C', 'deg C', 'degrees C'),
  ...named('degree Fahrenheit', 'degrees Fahrenheit', '°F', '° F', 'F', 'deg F', 'degrees F'),
  ...plural('degree', '°'),
  ...named('part per million', 'parts per million', 'ppm', 'PPM'),
  ...named('part per billion', 'parts per billion', 'ppb'),
  ...named('p H', 'p H', 'pH'),
  ...named('pound per square inch', 'pounds per square inch', 'psi', 'PSI'),
  ...plural('kilopascal', 'kPa'),
  ...plural('bar', 'bar'),
  ...named('gallon per minute', 'gallons per minute', 'gpm', 'GPM'),
  ...named('revolution per minute', 'revolutions per minute', 'rpm', 'RPM'),
  ...named('grain per gallon', 'grains per gallon', 'gpg'),
  ...plural('hour', 'h', 'hr', 'hrs'),
  ...plural('minute', 'min', 'mins'),
  ...plural('second', 's', 'sec', 'secs'),
  ...plural('day', 'd'),
  ...plural('week', 'wk', 'wks'),
  ...plural('millimeter', 'mm'),
  ...plural('centimeter', 'cm'),
  ...plural('meter', 'm'),
  ...named('inch', 'inches', 'inch', 'in.', 'inches'),
  ...named('foot', 'feet', 'ft'),
  ...plural('volt', 'V'),
  ...plural('watt', 'W'),
  ...plural('kilowatt', 'kW'),
  ...named('hertz', 'hertz', 'Hz'),
  ...plural('decibel', 'dB'),
  ...named('percent', 'percent', '%')
])
