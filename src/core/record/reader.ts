import * as v from 'valibot'

/** Gives what has the shape, without fields that the shape does not name; null for anything else. */
export function reader<const Shape extends v.GenericSchema>(shape: Shape) {
  return (value: unknown): v.InferOutput<Shape> | null => {
    const parsed = v.safeParse(shape, value)
    return parsed.success ? parsed.output : null
  }
}
