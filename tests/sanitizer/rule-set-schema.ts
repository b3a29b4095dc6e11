import { ruleSetFormat } from '../../src/core/sanitizer/rule-set-format.ts'
import { choiceFormat } from '../../src/core/sanitizer/choice-format.ts'
import { schemaText } from '../procedures/procedure-schema.ts'

export function ruleSetSchemaText(): string {
  return schemaText(ruleSetFormat, {
    $id: 'urn:sidecall:rule-set:1',
    title: 'Sidecall rule set',
    description:
      'The limits of a jurisdiction or of a product label, each with its source. procedures/rules/README.md explains every key. The program checks more than this shape, such as figures that contradict each other.'
  })
}

export function choiceSchemaText(): string {
  return schemaText(choiceFormat, {
    $id: 'urn:sidecall:chosen-rules:1',
    title: 'Sidecall choice of rules',
    description: 'Which rule set and which product labels a shop is judged by. procedures/rules/README.md explains it.'
  })
}
