/** News from the shop's server while it lasts. What is missed is asked for again, so nothing depends on it. */
export interface ServerStream {
  /** Told when a run has moved on there, and with null when anything may have: the stream began anew. */
  onMoved(tell: (runId: string | null) => void): () => void
  /** Told when other procedures are offered. */
  onOffered(tell: () => void): () => void
  close(): void
}
