import { ruleSetFormat } from '../../src/core/sanitizer/rule-set-format.ts'
import { schemaText } from '../procedures/procedure-schema.ts'

export function ruleSetSchemaText(): string {
  return schemaText(ruleSetFormat, {
    $id: 'urn:sidecall:rule-set:1',
    title: 'Sidecall rule set',
    description:
      'The limits of a jurisdiction or of a product label, each with its source. procedures/rules/README.md explains every key. The program checks more than this shape, such as figures that contradict each other.'
  })
}
