/** The JSON Schema of procedure files, made from the shape the program itself reads them with. */
import { toJsonSchema } from '@valibot/to-json-schema'
import { authorFormat } from '../../src/core/procedure/author-format.ts'

export function procedureSchemaText(): string {
  const { $schema, ...shape } = toJsonSchema(authorFormat, {
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
  const schema = {
    $schema,
    $id: 'urn:sidecall:procedure:1',
    title: 'Sidecall procedure',
    description:
      'What should be done on a machine with sides, as its author writes it. procedures/README.md explains every key. The program checks more than this shape, such as repeats and tools.',
    ...shape
  }
  return `${JSON.stringify(schema, null, 2)}\n`
}

function trimmedLength(most: number): string {
  return `^\\s*\\S(?:[\\s\\S]{0,${most - 2}}\\S)?\\s*$`
}
