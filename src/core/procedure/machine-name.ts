import type { Procedure } from './procedure.ts'

/** What records and what is due go by: the name in the procedure's first language, whatever language somebody works in. */
export function machineName({ id, languages, machine }: Pick<Procedure, 'id' | 'languages' | 'machine'>): string {
  return machine[languages[0] ?? ''] ?? Object.values(machine)[0] ?? id
}
