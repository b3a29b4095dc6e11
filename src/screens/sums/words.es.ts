/** The Spanish texts of the page for sums. */
import type { MixField } from '../../core/sanitizer/mix-sum.ts'
import type { Measured } from '../../core/sanitizer/reading.ts'
import type { Agent, Convention, Product } from '../../core/sanitizer/rule-set.ts'
import type { SumsWords } from './words.en.ts'

const AGENTS: Readonly<Record<Agent, string>> = { chlorine: 'Cloro', iodine: 'Yodo', quat: 'Amonio cuaternario' }
const FORMS: Readonly<Record<Product['form'], string>> = { liquid: 'Líquido', powder: 'Polvo', tablet: 'Tabletas' }
const CONVENTIONS: Readonly<Record<Convention, string>> = {
  weight: 'Por peso del compuesto',
  available: 'Disponible, por peso',
  trade: 'Gramos disponibles en 100 mL',
  unstated: 'La etiqueta no lo dice'
}
const MEASURED: Readonly<Record<Measured, string>> = {
  ppm: 'Concentración, ppm',
  temperature: 'Temperatura, como 24 C o 75 F',
  ph: 'pH',
  hardness: 'Dureza del agua, mg/L (de la compañía de agua)',
  seconds: 'Tiempo de contacto, segundos'
}
const FIELDS: Readonly<Record<MixField, string>> = {
  percent: 'Porcentaje en la etiqueta',
  density: 'Densidad, kg/L (de la hoja de seguridad)',
  target: 'Concentración deseada, ppm',
  volume: 'Mezcla completa, como 7.6 L o 2 gal'
}

export const sumsWordsEs: SumsWords = {
  title: 'Mezclar y evaluar',
  noRules:
    'Las normas de este local no se pueden obtener ahora y este aparato no tiene copia. Vuelva cuando el servidor conteste.',
  mix: '¿Cuánto producto?',
  judge: '¿Esta lectura es aceptable?',
  label: 'Producto',
  labelNone: 'Otro producto',
  rules: 'Normas',
  labels: 'Etiqueta',
  noLabel: 'Sin etiqueta',
  agent: 'Qué es',
  form: 'Forma',
  convention: 'Qué significa el porcentaje',
  agents: AGENTS,
  forms: FORMS,
  conventions: CONVENTIONS,
  fields: FIELDS,
  milligrams: 'Miligramos disponibles en una tableta',
  measure: 'Medida',
  exactly: 'Cantidad exacta',
  subject: 'Qué se midió',
  measured: MEASURED,
  clear: 'Aspecto del enjuague',
  isClear: 'Claro',
  isNotClear: 'Turbio',
  incomplete: {
    mix: 'Llene los campos y aquí aparece la receta.',
    judge: 'Escriba lo que se midió y aquí aparece la respuesta.'
  },
  recipes: { good: 'Receta', out: 'Sin receta', unknown: 'Receta demasiado débil para desinfectar' },
  verdicts: { good: 'Aceptable', out: 'Fuera de límites', unknown: 'Todavía no se puede evaluar' }
}
