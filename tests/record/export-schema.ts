/** The JSON Schema of exports, made from the shape the program itself writes. */
import { exportFormat } from '../../src/core/record/export-format.ts'
import { schemaText } from '../procedures/procedure-schema.ts'

export function exportSchemaText(): string {
  return schemaText(exportFormat, {
    $id: 'urn:sidecall:export:1',
    title: 'Sidecall export',
    description:
      'Entries of runs as the server chained them. link is the SHA-256 (lower-case hexadecimal) of the RFC 8785 form of {digest, place, previous, receivedAt, site}; digest is that of the entry itself; previous is the link before it. Times are in milliseconds since 1970 (UTC), in trusted time; deviceAt is what the clock of the device said.'
  })
}
