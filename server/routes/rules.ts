/** The rule sets and labels of the shop, and which of them it has chosen. */
import { Hono } from 'hono'
import type { RulesOffered } from '../../src/core/sanitizer/shop-rules.ts'

export function ruleRoutes(rules: RulesOffered): Hono {
  const routes = new Hono()
  routes.get('/rules', (context) => context.json(rules))
  return routes
}
