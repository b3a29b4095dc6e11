/** Spanish names of units, with their gender. Common practice in Mexico and the United States, no source. */
import type { UnitWords } from './spoken-language.ts'

const named = (words: UnitWords, ...written: readonly string[]): readonly (readonly [string, UnitWords])[] =>
  written.map((sign) => [sign, words])
const him = (one: string, many: string, ...written: readonly string[]) => named({ one, many }, ...written)
const her = (one: string, many: string, ...written: readonly string[]) =>
  named({ one, many, gender: 'feminine' }, ...written)

export const unitsEs: Readonly<Record<string, UnitWords>> = Object.fromEntries([
  ...her('onza líquida', 'onzas líquidas', 'fl oz', 'oz líq.', 'oz fl'),
  ...him('galón', 'galones', 'gal'),
  ...him('cuarto de galón', 'cuartos de galón', 'qt'),
  ...her('pinta', 'pintas', 'pt'),
  ...her('taza', 'tazas', 'taza', 'tazas', 'cup', 'cups'),
  ...her('cucharada', 'cucharadas', 'cda', 'cdas', 'cda.', 'cdas.', 'tbsp'),
  ...her('cucharadita', 'cucharaditas', 'cdta', 'cdtas', 'cdta.', 'cdtas.', 'tsp'),
  ...her('onza', 'onzas', 'oz'),
  ...her('libra', 'libras', 'lb', 'lbs'),
  ...him('kilogramo', 'kilogramos', 'kg'),
  ...him('gramo', 'gramos', 'g'),
  ...him('miligramo', 'miligramos', 'mg'),
  ...him('mililitro', 'mililitros', 'mL', 'ml'),
  ...him('litro', 'litros', 'L', 'l'),
  ...him('grado Celsius', 'grados Celsius', '°C', '° C', 'C', 'grados C'),
  ...him('grado Fahrenheit', 'grados Fahrenheit', '°F', '° F', 'F', 'grados F'),
  ...him('grado', 'grados', '°'),
  ...her('parte por millón', 'partes por millón', 'ppm', 'PPM'),
  ...him('pe hache', 'pe hache', 'pH'),
  ...her('libra por pulgada cuadrada', 'libras por pulgada cuadrada', 'psi', 'PSI'),
  ...him('kilopascal', 'kilopascales', 'kPa'),
  ...her('hora', 'horas', 'h', 'hr', 'hrs'),
  ...him('minuto', 'minutos', 'min', 'mins'),
  ...him('segundo', 'segundos', 's', 'seg', 'sec'),
  ...him('día', 'días', 'd'),
  ...him('milímetro', 'milímetros', 'mm'),
  ...him('centímetro', 'centímetros', 'cm'),
  ...him('metro', 'metros', 'm'),
  ...her('pulgada', 'pulgadas', 'inch', 'in.', 'pulg.', 'pulg'),
  ...him('pie', 'pies', 'ft'),
  ...him('voltio', 'voltios', 'V'),
  ...him('vatio', 'vatios', 'W'),
  ...him('por ciento', 'por ciento', '%')
])
