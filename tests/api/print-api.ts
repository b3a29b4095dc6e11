/** `npm run --silent api`: the interface of the server as OpenAPI 3.1. */
import { apiText } from './describe-api.ts'

process.stdout.write(apiText())
