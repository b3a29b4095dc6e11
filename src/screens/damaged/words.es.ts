/** Spanish texts for a run with damaged entries. */
import { count } from '../count.ts'
import type { DamagedWords } from './words.en.ts'

export const damagedWordsEs: DamagedWords = {
  title: 'Una parte de este trabajo está dañada',
  lost: (value) =>
    `${count(value, 'anotación', 'anotaciones')} de este trabajo: ilegible en este aparato. No se sabe qué decía.`,
  asked: 'El servidor tampoco tiene lo que falta.',
  away: 'Quizá el servidor todavía tiene lo que falta, pero no contesta. Si hay tiempo, hágalo volver y busque otra vez primero.',
  whatThen: 'Seguir sin eso respeta cada espera y tarda más:',
  consequences: [
    'Cada lugar se detiene hasta que alguien lo revisa y anota lo que encontró.',
    'Cada lugar que tuvo que esperar espera una vez más, tanto como su espera más larga hasta ahora.',
    'Un tiempo máximo que quizá pasó cuenta como pasado.',
    'El registro dice que se perdieron anotaciones. Lo dañado se conserva.'
  ],
  hold: 'Mantenga oprimido: seguir sin eso',
  again: 'Buscar otra vez',
  leave: 'Volver a la lista'
}
