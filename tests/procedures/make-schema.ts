/** Writes the JSON Schemas in procedures/; run it after a change of what procedures or rule sets may contain. */
import { writeFileSync } from 'node:fs'
import { choiceSchemaText, ruleSetSchemaText } from '../sanitizer/rule-set-schema.ts'
import { procedureSchemaText } from './procedure-schema.ts'

const procedures = new URL('../../procedures/', import.meta.url)
writeFileSync(new URL('procedure.schema.json', procedures), procedureSchemaText())
writeFileSync(new URL('rules/chosen.schema.json', procedures), choiceSchemaText())
writeFileSync(new URL('rules/rule-set.schema.json', procedures), ruleSetSchemaText())
