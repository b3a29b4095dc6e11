/** The Spanish words that stand in a new part of a procedure. */
import type { BeginWords } from './words.en.ts'

export const beginWordsEs: BeginWords = {
  summary: 'Escriba qué hace. Primero valen el manual del fabricante, la etiqueta del producto y las normas locales.',
  left: 'Izquierda',
  right: 'Derecha',
  stage: 'Prepare',
  gather: 'Reúna los materiales que se indican.',
  hazard: 'Peligro.',
  consequence: 'Puede hacerle daño.',
  avoid: 'Manténgase lejos.',
  source: 'Práctica común. Primero vale la etiqueta del producto.',
  late: 'Hágalo una vez más.',
  question: '¿Quedó limpio?',
  again: 'Hágalo una vez más.',
  reading: '¿Cuánto marca?',
  mix: 'Prepare una mezcla fresca.',
  count: '¿Cuántas piezas hay?',
  missing: 'Busque lo que falta.',
  correction: 'Llame al supervisor.',
  directions: 'Mida según la etiqueta del producto.'
}
