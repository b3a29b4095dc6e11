/** A touch on the ears: starts them, or lets them try again after they went deaf. */
import type { Ears } from '../ports/ears.ts'

export function listenAgain(ears: Ears, language: string): void {
  const { kind } = ears.state()
  if (kind === 'deaf' || kind === 'retrying') ears.tryAgain()
  ears.start(language)
}
