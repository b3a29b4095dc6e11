import { expect, test } from 'vitest'
import { lint } from '../../src/core/procedure/lint/lint.ts'
import { NO_RULES } from '../../src/core/sanitizer/shop-rules.ts'
import { SHIPPED } from './shipped-files.ts'

test.each(SHIPPED)('$name keeps every rule for authors', ({ procedure }) => {
  expect(lint(procedure, NO_RULES).map(({ rule, path, what }) => `${rule.id} ${path.join('.')}: ${what}`)).toEqual([])
})
