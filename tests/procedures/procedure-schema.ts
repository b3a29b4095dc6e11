/** The JSON Schema of files that people write, made from the shape the program itself reads them with. */
import { toJsonSchema } from '@valibot/to-json-schema'
import type { GenericSchema } from 'valibot'
import { authorFormat } from '../../src/core/procedure/author-format.ts'

export function procedureSchemaText(): string {
  return schemaText(authorFormat, {
    $id: 'urn:sidecall:procedure:1',
    title: 'Sidecall procedure',
    description:
      'What should be done on a machine with sides, as its author writes it. procedures/README.md explains every key. The program checks more than this shape, such as repeats and tools.'
  })
}

export function schemaText(
  format: GenericSchema,
  head: Readonly<Record<'$id' | 'title' | 'description', string>>
): string {
  const { $schema, ...shape } = toJsonSchema(format, {
    target: 'draft-2020-12',
    overrideAction: ({ valibotAction: action, jsonSchema }) => {
      // The program measures words after trimming them. JSON Schema cannot trim, so a pattern says the same.
      if (action.type === 'trim') return jsonSchema
      if (action.type === 'max_length' && jsonSchema.type === 'string' && 'requirement' in action) {
        return { type: 'string', pattern: trimmedLength(Number(action.requirement)) }
      }
      return undefined
    }
  })
  return `${JSON.stringify({ $schema, ...head, ...shape }, null, 2)}\n`
}

function trimmedLength(most: number): string {
  return `^\\s*\\S(?:[\\s\\S]{0,${most - 2}}\\S)?\\s*$`
}
