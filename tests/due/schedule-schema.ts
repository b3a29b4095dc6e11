import { scheduleFormat } from '../../src/core/due/schedule-format.ts'
import { schemaText } from '../procedures/procedure-schema.ts'

export function scheduleSchemaText(): string {
  return schemaText(scheduleFormat, {
    $id: 'urn:sidecall:schedule:1',
    title: 'Sidecall schedule',
    description: 'What has to be done how often in a shop. procedures/due/README.md explains every key.'
  })
}
