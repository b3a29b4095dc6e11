/** Makes it when it is first asked for, and again only where that failed: a network that was away for a moment is no reason to give up. */
export function once<Made>(make: () => Promise<Made>): () => Promise<Made> {
  let made: Promise<Made> | null = null
  return () =>
    (made ??= make().catch((failure: unknown) => {
      made = null
      throw failure
    }))
}
