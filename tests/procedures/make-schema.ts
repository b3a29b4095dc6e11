/** Writes the JSON Schemas; run it after a change of what procedures, rule sets or exports may contain. */
import { writeFileSync } from 'node:fs'
import { exportSchemaText } from '../record/export-schema.ts'
import { choiceSchemaText, ruleSetSchemaText } from '../sanitizer/rule-set-schema.ts'
import { scheduleSchemaText } from '../due/schedule-schema.ts'
import { procedureSchemaText } from './procedure-schema.ts'

const procedures = new URL('../../procedures/', import.meta.url)
writeFileSync(new URL('procedure.schema.json', procedures), procedureSchemaText())
writeFileSync(new URL('due/schedule.schema.json', procedures), scheduleSchemaText())
writeFileSync(new URL('rules/chosen.schema.json', procedures), choiceSchemaText())
writeFileSync(new URL('rules/rule-set.schema.json', procedures), ruleSetSchemaText())
writeFileSync(new URL('../../public/record-export.schema.json', import.meta.url), exportSchemaText())
