/** Writes procedures/procedure.schema.json; run it after a change of the author format. */
import { writeFileSync } from 'node:fs'
import { procedureSchemaText } from './procedure-schema.ts'

writeFileSync(new URL('../../procedures/procedure.schema.json', import.meta.url), procedureSchemaText())
