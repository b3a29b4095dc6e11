/** The Spanish words of what is due: on the screen and in calendars. */
import type { DueWords } from './words.en.ts'

export const dueWordsEs: DueWords = {
  calendar: 'Sidecall: lo que toca hacer',
  entry: (title, machine) => `${title}: ${machine}`,
  forbidden: 'no se debe usar',
  state: ({ state }) => {
    switch (state.kind) {
      case 'in-order':
        return state.dueAt === null ? 'nada pendiente' : 'en orden'
      case 'start-now':
        return 'empezar ahora'
      case 'overdue':
        return state.use === 'overdue' ? 'atrasado' : 'atrasado: no se debe usar'
      case 'never-done':
        return state.use === 'overdue' ? 'todavía sin registro' : 'todavía sin registro: no se debe usar'
      case 'under-way':
        return 'en marcha'
    }
  },
  startBy: (when) => `empezar a más tardar ${when}`,
  due: (when) => `vence ${when}`,
  source: (source) => `Fuente: ${source}`,
  labelFirst: 'Primero valen la etiqueta del producto, el manual y las normas locales.'
}
