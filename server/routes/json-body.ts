/** Bodies of requests: JSON, of a known form. */
import type { Context } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import * as v from 'valibot'
import { problem } from '../problem.ts'

const MOST_BYTES = 10_000

export const smallBody = bodyLimit({
  maxSize: MOST_BYTES,
  onError: (context) => problem(context, 413, 'Too large', 'Send less.')
})

/** Null for anything of another form, and for what is no JSON. */
export async function bodyOf<const Shape extends v.GenericSchema>(
  context: Context,
  shape: Shape
): Promise<v.InferOutput<Shape> | null> {
  const body: unknown = await context.req.json().catch(() => undefined)
  const parsed = v.safeParse(shape, body)
  // A list is an object too, to valibot.
  return parsed.success && !Array.isArray(body) ? parsed.output : null
}
